import type { ScreenLean } from '../../draw/camera-reads'
import { degreesText, number, SPACE } from '../../sheet/format'

/**
 * How far a lean travels on the screen, and where it doesn't read, what would make it.
 * @param from first frame of the span it is looked for in, and `to` its last, as the sheet numbers them
 */
export function cameraWords(lean: ScreenLean, from: number, to: number): string[] {
  if (!lean.seen) return ['Some of the lean lies behind the camera.']
  const travel = `From ${from} to ${to} the lean travels ${percent(lean.travel)} of his height on the screen`
  if (lean.reads) return [`${travel}: it reads.`]
  const tip = degreesText(Math.abs(lean.hipLine))
  const words = [`${travel}: too little to read.`]
  if (lean.hipLineReads) words.push(`The hip line tells it: it tips ${tip}.`)
  words.push(lean.turn === null ? NOWHERE : turnWords(lean.turn))
  if (!lean.hipLineReads) words.push(`Or let the hip line tell it: it tips ${tip}, 4° would show.`)
  return words
}

const NOWHERE = 'It reads from nowhere on this height: the lean itself is small.'

function turnWords(turn: number): string {
  const way = turn > 0 ? 'right' : 'left'
  return `Carry the camera ${degreesText(Math.abs(turn))} to its ${way}, or turn him ${degreesText(Math.abs(turn))} the other way.`
}

const percent = (share: number): string => `${number(share * 100, share < 0.1 ? 1 : 0)}${SPACE}%`
