import { CHANNELS, type Key } from '../../document/channels'
import type { ContactSpan } from '../../document/contacts'
import { LIMITS } from '../../document/limits'
import type { Plan, Take } from '../../document/plan'
import { clamp } from '../within-limits'
import { changeTake, patch } from './change'
import { changeChannels, frameIn } from './keys'

/**
 * Gives a take another number of frames. What lies past the new end goes, spans are cut there, notes move
 * to the last frame (accents and notes set aside go); a channel whose every key would go keeps its first one, on the last frame.
 */
export function setLength(plan: Plan, takeId: string, length: number): Plan {
  const frames = Math.round(clamp(length, LIMITS.frames))
  return changeTake(plan, takeId, (take) => {
    if (frames >= take.length) return patch(take, { length: frames })
    return retimed(take, {
      length: frames,
      start: (frame) => frame,
      after: (frame) => Math.min(frame + 1, frames),
      keeps: (frame) => frame < frames,
    })
  })
}

/** Adds frames before one: everything from there on comes later, and spans across it last longer. */
export function insertFrames(plan: Plan, takeId: string, before: number, count: number): Plan {
  return changeTake(plan, takeId, (take) => {
    const at = Math.round(clamp(before, [0, take.length]))
    const added = Math.round(clamp(count, [0, LIMITS.frames[1] - take.length]))
    if (added === 0) return take
    return retimed(take, {
      length: take.length + added,
      start: (frame) => (frame >= at ? frame + added : frame),
      after: (frame) => (frame >= at ? frame + 1 + added : frame + 1),
      keeps: () => true,
    })
  })
}

/** Takes frames out, with their keys, accents and notes set aside; one frame of the take stays. */
export function removeFrames(plan: Plan, takeId: string, first: number, count: number): Plan {
  return changeTake(plan, takeId, (take) => {
    const at = frameIn(take, first)
    const gone = Math.round(clamp(count, [0, Math.min(take.length - at, take.length - 1)]))
    if (gone === 0) return take
    const moved = (edge: number) => (edge <= at ? edge : Math.max(at, edge - gone))
    return retimed(take, {
      length: take.length - gone,
      start: moved,
      after: (frame) => moved(frame + 1),
      keeps: (frame) => frame < at || frame >= at + gone,
    })
  })
}

/**
 * Plays a take slower (factor > 1) or quicker, from frame 0: every key, span and note goes to the nearest
 * frame at that many times its own; a touch ends where a key on its last frame goes. Where two keys of a channel
 * meet, the earlier stays; a contact for which no frame is left goes, and so does an arc whose ends meet.
 * @param factor > 0; brought within what LIMITS.frames allows
 */
export function scaleTime(plan: Plan, takeId: string, factor: number): Plan {
  return changeTake(plan, takeId, (take) => {
    const k = clamp(factor, [LIMITS.frames[0] / take.length, LIMITS.frames[1] / take.length])
    if (k === 1) return take
    const length = Math.round(clamp(take.length * k, LIMITS.frames))
    const start = (frame: number) => Math.round(frame * k)
    const moved = retimed(take, {
      length,
      start,
      after: (frame) => Math.min(length, start(frame + 1)),
      keeps: () => true,
    })
    return { ...moved, contacts: touchesTo(take, start, length) }
  })
}

/**
 * The contacts of a take whose frames go elsewhere. A touch ends where its last frame goes, since that is where it
 * lifts; one that another of the same part follows at once lasts until that one begins, and one that lasts to the
 * end of the take still does.
 * @param place never falls
 * @param length frames of the take after it
 */
export function touchesTo(
  take: Take,
  place: (frame: number) => number,
  length: number,
): readonly ContactSpan[] {
  return take.contacts
    .map((contact) => {
      const next = Math.min(
        ...take.contacts
          .filter(({ part, from }) => part === contact.part && from > contact.to)
          .map(({ from }) => from),
      )
      const last = contact.to === take.length - 1 ? length - 1 : Math.min(place(contact.to), length - 1)
      const to = next === contact.to + 1 ? place(next) - 1 : Math.min(last, place(next) - 1)
      return patch(contact, { from: place(contact.from), to })
    })
    .filter(({ from, to }) => from <= to)
}

/** Where the frames of a take go. Neither map falls, and `after(f)` is at most `start(f + 1)`. */
export interface Retiming {
  /** Frames after it. */
  readonly length: number
  /** The first of the frames that a frame becomes. */
  readonly start: (frame: number) => number
  /** The first frame after those it becomes; equal to `start` where it becomes none. */
  readonly after: (frame: number) => number
  /** Whether what stands on the frame is kept. */
  readonly keeps: (frame: number) => boolean
}

/** A take with everything in it brought to where its frames go. */
export function retimed(take: Take, to: Retiming): Take {
  const frameAt = (frame: number) => Math.min(to.start(frame), to.length - 1)
  const keys = (list: readonly Key[]): readonly Key[] => {
    const left: Key[] = []
    for (const key of list) {
      const frame = frameAt(key.frame)
      if (to.keeps(key.frame) && left.at(-1)?.frame !== frame) left.push(patch(key, { frame }))
    }
    const first = list[0] as Key
    return left.length > 0 ? left : [patch(first, { frame: frameAt(first.frame) })]
  }
  return {
    ...changeChannels(take, CHANNELS, keys),
    length: to.length,
    contacts: take.contacts.map((span) => respan(span, to)).filter((span) => span.from <= span.to),
    // An arc goes between two frames, so its ends go where keys on them go.
    arcs: take.arcs
      .map((arc) => patch(arc, { from: frameAt(arc.from), to: frameAt(arc.to) }))
      .filter((arc) => arc.from < arc.to),
    loads: lasting(take.loads, to),
    phases: lasting(take.phases, to),
    accents: take.accents
      .filter(({ frame }) => to.keeps(frame))
      .map((accent) => patch(accent, { frame: frameAt(accent.frame) })),
    setAside: take.setAside
      .filter(({ from }) => to.keeps(from))
      .map((note) => patch(note, { from: frameAt(note.from) })),
    notes: take.notes.map((note) => patch(note, { frame: frameAt(note.frame) })),
  }
}

interface Span {
  readonly from: number
  readonly to: number
}

const respan = <T extends Span>(span: T, to: Retiming): T =>
  patch(span, { from: to.start(span.from), to: to.after(span.to) - 1 } as Partial<T>)

/** Spans that may overlap last a frame at least, unless all their frames go. */
const lasting = <T extends Span>(list: readonly T[], to: Retiming): readonly T[] =>
  list.flatMap((span) => {
    const moved = respan(span, to)
    if (moved.from <= moved.to) return [moved]
    const from = Math.min(moved.from, to.length - 1)
    return to.keeps(span.from) ? [patch(span, { from, to: from } as Partial<T>)] : []
  })
