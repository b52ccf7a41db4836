import type { Ease } from './balance'
import { HAND_PLACES } from './constants'
import type { OptionId } from './types'

/** A way of getting the weight over: who gives how readily, and what is done for it first. */
export interface Way {
  readonly id: OptionId
  readonly name: string
  readonly ease: Ease
  /** Tried after `ease` where that doesn't do. */
  readonly more: readonly Ease[]
  /** How far he sits back first, as a share of a right angle of the thighs. */
  readonly sit: number
  /** A hand planted first: in front of the midline or on the lifting side. */
  readonly hand: 'front' | 'side' | null
  /** Which of the places for it, the best being 0. */
  readonly place: number
  /** How far each knee comes nearer first, over H. */
  readonly narrow: number
  readonly toesStay: boolean
}

/** How readily each control gives, over H or rad: with these, about a tenth of the weight's way comes from the chest. */
const PELVIS: Ease = {
  'pelvis.x': 1,
  'pelvis.z': 1,
  'pelvis.y': 0.15,
  'pelvis.list': 0.35,
  'pelvis.tilt': 0.25,
  'chest.list': 0.9,
  'chest.tilt': 0.5,
}
const WITH_CHEST: Ease = { ...PELVIS, 'chest.list': 3.2, 'chest.tilt': 2 }
const CHEST: Ease = {
  'pelvis.x': 0.12,
  'pelvis.z': 0.12,
  'pelvis.y': 0.05,
  'pelvis.list': 0.1,
  'pelvis.tilt': 0.4,
  'chest.list': 2,
  'chest.tilt': 2,
}
const plain = { more: [], sit: 0, hand: null, place: 0, narrow: 0, toesStay: false } as const
const helped = { ...plain, more: [WITH_CHEST] } as const

export const WAYS: Readonly<Record<OptionId, Way>> = {
  pelvis: { id: 'pelvis', name: 'The pelvis leads', ease: PELVIS, ...plain },
  'pelvis-chest': { id: 'pelvis-chest', name: 'Pelvis and chest together', ease: WITH_CHEST, ...plain },
  'sit-back': { id: 'sit-back', name: 'Sits back and shifts', ease: PELVIS, ...plain, sit: 0.3 },
  chest: { id: 'chest', name: 'Bends instead of shifting', ease: CHEST, ...plain },
  'hand-front': { id: 'hand-front', name: 'A hand in front helps', ease: PELVIS, ...helped, hand: 'front' },
  'hand-side': {
    id: 'hand-side',
    name: 'A hand on the lifting side helps',
    ease: PELVIS,
    ...helped,
    hand: 'side',
  },
  narrow: { id: 'narrow', name: 'The knees come nearer first', ease: PELVIS, ...plain, narrow: 0.02 },
  'toes-stay': { id: 'toes-stay', name: 'The toes stay', ease: PELVIS, ...plain, toesStay: true },
}

/** A hand's way, at one place for it after the other. */
export const handWays = (id: 'hand-front' | 'hand-side'): Way[] =>
  Array.from({ length: HAND_PLACES }, (_, place) => ({ ...WAYS[id], place }))
