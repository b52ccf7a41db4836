import type { LimbId } from '../../document/contacts'
import { degreesText, type LengthUnit, lengthText, massText, percentText } from '../../sheet/format'
import type { ShiftOption } from '../../shift/planner/types'
import { limbName } from '../stage/limb-name'

/** What an option costs, in words: frames, lean and hip line, greatest load, worst room. */
export function optionWords(option: ShiftOption, unit: LengthUnit, mass: number): string[] {
  const { frames, lean, hipLine, load, room } = option
  return [
    `${frames} frames`,
    `leans ${degreesText(lean)}, hip line ${degreesText(hipLine)}`,
    `most on the ${limbName(load.limb as LimbId)}: ${percentText(load.share)}, ${massText(load.share * mass, mass)}`,
    room >= 0
      ? `never nearer to tipping than ${lengthText(room, unit)}`
      : `at most ${lengthText(-room, unit)} past his edge`,
  ]
}

/** The keys of an option that tell it: one of each phase that moves him, at most `most`. */
export function tellingKeys({ keys }: ShiftOption, most: number): number[] {
  const frames = [...new Set(keys.map(({ frame }) => frame))]
  if (frames.length <= most) return frames
  const first = frames[0] as number
  const last = frames.at(-1) as number
  const wanted = ['sink', 'lean', 'travel', 'touch', 'lift', 'share', 'press', 'take-up'] as const
  const told = new Set([first, last])
  for (const phase of wanted) {
    if (told.size >= most) break
    // Of a chain the last transfer is the move itself.
    const key = keys.findLast((one) => one.phase === phase)
    if (key) told.add(key.frame)
  }
  return [...told].sort((a, b) => a - b)
}
