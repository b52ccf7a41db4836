import { bodyWays, wayWords } from '../../sheet/directions'
import { degreesText, type LengthUnit, lengthText, neededText } from '../../sheet/format'
import type { Lean } from '../../weigh/lean'

/** What a lean asks for: 'Shift the pelvis 11 cm to his right and forward'. */
export function leanTitle({ kind, travel, list, tilt }: Lean, heading: number, unit: LengthUnit): string {
  const [side, fore] = bodyWays(heading, travel[0], travel[1])
  const far = neededText(Math.hypot(side, fore), unit)
  if (kind === 'pelvis') return `Shift the pelvis ${far} ${wayWords(side, fore, 'his')}`
  if (kind === 'sit-back') return `Sit back ${far}`
  return `Lean the chest ${chestWords(list, tilt)}`
}

/** What comes of it: that the mover is empty then, or what is short and why. */
export function leanOutcome({ works, verdict, short, limit }: Lean, unit: LengthUnit): string {
  if (works) return verdict.kind === 'empty' ? 'It is empty then.' : 'It could let go then.'
  return `Not enough: ${lengthText(short, unit)} short.${limit ? ` ${limit.text}` : ''}`
}

/** A list raises the left side, so the chest leans to his right. */
function chestWords(list: number, tilt: number): string {
  const side =
    Math.abs(list) < STILL ? '' : `${degreesText(Math.abs(list))} to his ${list > 0 ? 'right' : 'left'}`
  const fore = Math.abs(tilt) < STILL ? '' : `${degreesText(Math.abs(tilt))} ${tilt > 0 ? 'forward' : 'back'}`
  return [side, fore].filter(Boolean).join(' and ') || '0°'
}

/** Half a degree is not worth a word. */
const STILL = Math.PI / 360
