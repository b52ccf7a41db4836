import type { Point2 } from '../../contact/hull'
import type { ReachedPose } from '../../pose/types'
import { sub } from '../../space/vec'
import { GATE, LEAST_ROOM } from './constants'
import { plumbOf, roomAt } from './region'
import type { Scene, ShiftLimit } from './types'

/** An answer, or what stops it. */
export type Solved<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly limit: ShiftLimit }

export const solved = <T>(value: T) => ({ ok: true, value }) as const
export const failed = (code: ShiftLimit['code'], by: number, text: string) =>
  ({ ok: false, limit: { code, by, text } }) as const

/**
 * What keeps a pose, held still, from being shown; null where nothing does.
 * @param start the pose that the shift starts from: what it does, later ones may
 * @param contacts how many should bear
 * @param region where those that must hold the weight can
 */
export function stops(
  scene: Scene,
  start: ReachedPose,
  pose: ReachedPose,
  contacts: number,
  region: readonly Point2[],
): ShiftLimit | null {
  const { stature } = scene.body
  const missed = missedPad(pose, contacts)
  if (missed) return missed
  const short = (LEAST_ROOM - roomAt(scene, region, plumbOf(pose))) * stature
  if (short > 1e-6 * stature) {
    const stop = pose.limits.find(({ code }) => code.startsWith('leg') || code.startsWith('arm'))
    const text = `His weight stops ${centimetres(short)} short of where the others could hold him${stop ? `. ${stop.text}` : '.'}`
    return { code: 'weight', by: short, text }
  }
  return hipLineStop(pose) ?? fleshStop(scene, pose, fleshOf(start), 1)
}

/** A planted part that the pose doesn't meet. */
export function missedPad(pose: ReachedPose, contacts: number): ShiftLimit | null {
  if (pose.pads.length >= contacts) return null
  const stop = pose.limits.find(({ limb }) => limb !== 'trunk')
  return { code: 'limb', by: stop?.by ?? 0, text: stop?.text ?? 'A planted part is missed.' }
}

export function hipLineStop(pose: ReachedPose): ShiftLimit | null {
  const line = Math.abs(hipLineOf(pose))
  if (line <= GATE.hipLine) return null
  return { code: 'hip-line', by: line - GATE.hipLine, text: 'The hip line would go past 20°.' }
}

/** @param started how deep parts ran into each other at the start, m */
export function fleshStop(
  scene: Scene,
  pose: ReachedPose,
  started: number,
  factor: number,
): ShiftLimit | null {
  const deeper = fleshOf(pose) - started
  if (deeper <= factor * GATE.flesh * scene.body.stature) return null
  const worst = pose.limits
    .filter(({ code }) => code === 'flesh')
    .reduce((a, b) => (b.by > a.by ? b : a), { by: 0, text: 'Parts run into each other.' })
  return { code: 'flesh', by: deeper, text: worst.text }
}

/** Angle of the line through the hips to level, rad; > 0 with the left side high. */
export function hipLineOf({ joints }: Pick<ReachedPose, 'joints'>): number {
  const way = sub(joints.hipL, joints.hipR)
  return Math.atan2(way[1], Math.hypot(way[0], way[2]))
}

export const fleshOf = (pose: ReachedPose): number =>
  pose.limits.reduce((most, { code, by }) => (code === 'flesh' ? Math.max(most, by) : most), 0)

export const centimetres = (m: number) => `${Math.max(1, Math.round(m * 100))} cm`
