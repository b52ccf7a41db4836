import type { LimbId } from '../../document/contacts'
import { moveKeys } from '../../plan/edit/keys'
import { markAt, roomForKey } from '../commands/keys'
import type { Desk } from '../desk.svelte'
import { type Edge, moveEdges, spansWithEdge } from './spans'

/** A drag on the sheet that is under way. */
export interface SheetDrag {
  /** Whether it changes the plan; otherwise it only goes through time. */
  readonly changes: boolean
  /** The pointer is over this frame now, which may lie outside the take. */
  to(frame: number): void
}

/**
 * Starts what the pointer took hold of: a key, the ends of a limb's contacts, or time itself.
 * @param handle the dataset of the handle under the pointer
 * @returns null where nothing can be dragged there (a finger on a row scrolls the sheet)
 */
export function startDrag(
  desk: Desk,
  frame: number,
  handle: DOMStringMap | undefined,
  pointerType: string,
): SheetDrag | null {
  const { take } = desk
  if (handle?.handle === 'key' && markAt(take, frame) !== null) return dragKey(desk, frame)
  if (handle?.handle === 'span') return dragEdge(desk, frame, handle.limb as LimbId, handle.edge as Edge)
  if (pointerType === 'touch') return null
  return { changes: false, to: (at) => desk.setFrame(at) }
}

export function endDrag(desk: Desk, drag: SheetDrag): void {
  if (drag.changes) desk.commit()
}

function dragKey(desk: Desk, from: number): SheetDrag {
  const { plan, takeId, take } = desk
  const { first, last } = roomForKey(take, from)
  desk.begin('Move key')
  return {
    changes: true,
    to(frame) {
      const at = Math.min(last, Math.max(first, frame))
      // Always from where the gesture began, so that the keys passed over stay.
      desk.change(() => moveKeys(plan, takeId, from, at))
      desk.setFrame(at)
    },
  }
}

function dragEdge(desk: Desk, from: number, limb: LimbId, edge: Edge): SheetDrag {
  const { plan, takeId, take } = desk
  const spans = spansWithEdge(take, limb, from, edge)
  desk.begin(edge === 'from' ? 'Move landing' : 'Move lift-off')
  return {
    changes: true,
    to(frame) {
      const at = Math.min(take.length - 1, Math.max(0, frame))
      desk.change(() => moveEdges(plan, takeId, spans, edge, at))
      desk.setFrame(at)
    },
  }
}
