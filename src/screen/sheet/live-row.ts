import { contactsAt } from '../../pose/between'
import { limbRows } from '../../sheet/limbs'
import { measuresOf } from '../../sheet/measures'
import type { Sheet, SheetRow } from '../../sheet/types'
import type { Desk } from '../desk.svelte'

/**
 * The row of the current frame as it stands this moment, while the whole take is being weighed elsewhere; null
 * where the sheet has no such row yet.
 */
export function liveRow(desk: Desk, sheet: Sheet): SheetRow | null {
  const { frame, take, plan, body, motion, pose, weighed } = desk
  const row = sheet.rows[frame]
  if (row === undefined) return null
  return {
    ...row,
    limbs: limbRows(pose, contactsAt(take, frame), weighed.weighing, plan.gravity),
    ...measuresOf(body, motion.poseAt(0), pose),
  }
}
