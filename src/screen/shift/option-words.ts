import type { LimbId } from '../../document/contacts'
import { degreesText, type LengthUnit, lengthText, massText, percentText } from '../../sheet/format'
import type { ShiftLimit, ShiftOption } from '../../shift/planner/types'
import type { ShiftWish } from '../../worker/protocol'
import { limbName } from '../stage/limb-name'
import { nameOf } from './goals'

/** What an option costs, in words: frames, lean and hip line, greatest load, worst room. */
export function optionWords(option: ShiftOption, unit: LengthUnit, mass: number): string[] {
  const { frames, lean, hipLine, load, room } = option
  return [
    `${frames} frames`,
    `leans ${degreesText(lean)}, hip line ${degreesText(hipLine)}`,
    `most on the ${limbName(load.limb as LimbId)}: ${percentText(load.share)}, ${massText(load.share * mass, mass)}`,
    roomWords(room, unit),
  ]
}

function roomWords(room: number, unit: LengthUnit): string {
  const far = lengthText(Math.abs(room), unit)
  if (far === lengthText(0, unit)) return 'once just on his edge'
  return room > 0 ? `never nearer to tipping than ${far}` : `on the move ${far} past his edge`
}

/** A question in a few words: 'left leg, shuffle sideways 26 cm, from 1001'. */
export function askedWords({ mover, goal, frame }: ShiftWish, firstFrame: number, unit: LengthUnit): string {
  const far = goal.kind === 'shuffle' ? ` ${lengthText(Math.abs(goal.by), unit)}` : ''
  return `${limbName(mover)}, ${nameOf(goal.kind)}${far}, from ${firstFrame + frame}`
}

/** What stops it and by how much, where the limit's own sentence has no figure. */
export function limitWords({ code, by, text }: ShiftLimit, { goal }: ShiftWish, unit: LengthUnit): string {
  if (goal.kind === 'hand-to-wall' && (code === 'nothing' || code === 'place'))
    return `${text} A wall is an upright face within his reach: set a block beside him, under Ground.`
  if (/\d\s?(%|cm|frames)/.test(text) || !(by > 0) || !Number.isFinite(by)) return text
  if (code === 'hip-line') return `${text} It would be ${degreesText(by)} too much.`
  if (code === 'limb' || code === 'place') return `${text} It lacks ${lengthText(by, unit)}.`
  if (code === 'flesh') return `${text} They are ${lengthText(by, unit)} too deep in each other.`
  return text
}

/** What may be asked instead where nothing that was tried helps. */
export function otherwise({ mover, goal, handHelp }: ShiftWish): string {
  if (mover.startsWith('arm'))
    return goal.kind === 'hand-to-wall'
      ? ''
      : 'Nothing that was tried helps. Put the mark higher or nearer to him, or lower him first: back to heel sit.'
  const hand = handHelp === false ? ' let a hand help,' : ''
  return `Nothing that was tried helps. Ask for a shorter way,${hand} or bring the knees nearer first: he lacks room.`
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
