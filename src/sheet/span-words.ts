import type { LeastFrames } from '../shift/least-frames'
import type { Hold } from '../shift/pace'
import { number, SPACE } from './format'

/**
 * A span's frames beside what it needs: 'You use 6; this needs 20, no curve could do it under 7.', then the frame
 * that limits and why, and whether it may be slowed.
 * @param used frames from its first to its last
 * @param firstFrame the number that frame 0 carries on the sheet
 */
export function leastWords(least: LeastFrames, used: number, firstFrame: number): string[] {
  const best = bestWords(least)
  if (!least.ok) {
    const at = firstFrame + least.limit.frame
    const fall = least.fall === null ? '' : ` At ${firstFrame + least.fall} he would fall if it went slower.`
    return [
      `You use ${used}; no even pace will do${best}.`,
      `Frame ${at} stops it: ${WHY[least.limit.why]}.${fall}`,
    ]
  }
  const { frames, limit, fall } = least
  const said = [`You use ${used}; this needs ${frames}${best}.`]
  if (limit !== null && frames > 0) said.push(`Frame ${firstFrame + limit.frame} limits: ${WHY[limit.why]}.`)
  if (fall !== null)
    said.push(`It can’t be slowed past ${fall.frames}: at ${firstFrame + fall.frame} he would fall.`)
  return said
}

function bestWords({ best }: LeastFrames): string {
  if (best.ok) return best.frames > 0 ? `, no curve could do it under ${best.frames}` : ''
  return best.why === 'starts at the edge'
    ? ', and from the very edge nothing pushes him off'
    : ', and at the very edge nothing catches him'
}

const WHY: Readonly<Record<Hold, string>> = {
  edge: 'his weight would have to press beyond the edge of what he stands on',
  grip: 'something he stands on would slip',
  'load limit': 'a contact would carry more than it may',
  'leaves the ground': 'he would leave the ground',
}

/**
 * Whether a span fits between two frames, and if not, by how many it is too long and what could go.
 * @param needed the frames it needs
 * @param notBefore first frame at which it may begin, and `downBy` the last at which it must be over, both as the
 * sheet numbers them
 * @param holds frames in which nothing moves, inside the span
 */
export function deadlineWords(
  needed: number,
  notBefore: number,
  downBy: number,
  holds: number,
): { readonly fits: boolean; readonly words: string } {
  const room = downBy - notBefore
  if (room < 1) return { fits: false, words: `There is no frame between ${notBefore} and ${downBy}.` }
  if (needed <= room) {
    const spare = room - needed
    return {
      fits: true,
      words: `It fits: ${framesText(room)} are there, ${needed} needed${spare > 0 ? `, ${spare} to spare` : ''}.`,
    }
  }
  const over = needed - room
  const cut = Math.min(holds, over)
  const hold =
    cut > 0
      ? `cut ${framesText(cut)} of hold${cut < over ? ` and find ${over - cut} more` : ''}`
      : 'nothing is held that could be cut'
  return {
    fits: false,
    words: `Too long by ${framesText(over)}: ${hold}; or go less far, widen what he stands on, or let it be thrown.`,
  }
}

/** 'Takes 0.8 s.' */
export const secondsText = (seconds: number): string => `${number(seconds, 2)}${SPACE}s`

const framesText = (frames: number): string => (frames === 1 ? '1 frame' : `${frames} frames`)
