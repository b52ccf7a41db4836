import type { ContactPart } from '../document/contacts'
import type { Take } from '../document/plan'
import { TAKE_UP, TIME_STATURE } from './dynamic-constants'

/**
 * Every contact's touch, by contact id. Contacts of one part that follow one another without a gap are one
 * touch, also where the part rolls from one kind of pad onto another. A touch that the take begins with has
 * begun for ever, and one that it ends with never ends.
 */
export function touchesOf({ contacts, length }: Pick<Take, 'contacts' | 'length'>): Map<string, Touch> {
  const touches = new Map<string, Touch>()
  const parts = new Set<ContactPart>(contacts.map(({ part }) => part))
  for (const part of parts) {
    const own = contacts.filter((contact) => contact.part === part).sort((a, b) => a.from - b.from)
    let first = 0
    for (let i = 0; i < own.length; i++) {
      const end = Math.max(...own.slice(first, i + 1).map(({ to }) => to))
      const next = own[i + 1]
      if (next && next.from <= end + 1) continue
      const from = own[first]?.from ?? 0
      for (const { id } of own.slice(first, i + 1)) touches.set(id, lasting(from, end, length))
      first = i + 1
    }
  }
  return touches
}

/** Frames from the touch to the last frame that bears, both included; −∞ and ∞ beyond the ends of the take. */
export interface Touch {
  readonly from: number
  readonly to: number
}

export const lasting = (from: number, to: number, length: number): Touch => ({
  from: from <= 0 ? Number.NEGATIVE_INFINITY : from,
  to: to >= length - 1 ? Number.POSITIVE_INFINITY : to,
})

/** Seconds from touch to full weight for a body of this stature (m). */
export const takeUpTime = (stature: number): number => TAKE_UP * Math.sqrt(stature / TIME_STATURE)

/**
 * How far a touch is taken up at a frame, 0 … 1: rising over `seconds` after it begins, falling over as long
 * before it ends, slow in and slow out.
 */
export function takenUp({ from, to }: Touch, frame: number, fps: number, seconds: number): number {
  return eased(Math.min(frame - from, to - frame) / (fps * seconds))
}

function eased(t: number): number {
  const x = Math.max(0, Math.min(1, t))
  return x * x * (3 - 2 * x)
}
