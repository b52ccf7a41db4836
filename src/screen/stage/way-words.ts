import { bodyAxes, wayWords } from '../../sheet/directions'
import { type LengthUnit, lengthText } from '../../sheet/format'
import { sub, type Vec3 } from '../../space/vec'

/** How far and which way something went, in his words: '9 cm to his right, 1 cm down'; '' where it is still. */
export function wentWords(from: Vec3, to: Vec3, heading: number, unit: LengthUnit): string {
  const [side, up, fore] = bodyAxes(heading, sub(to, from))
  const level = Math.hypot(side, fore)
  const least = 0.5 / (unit.perMetre * 10 ** unit.decimals)
  return [
    level < least ? '' : `${lengthText(level, unit)} ${wayWords(side, fore, 'his')}`,
    Math.abs(up) < least ? '' : `${lengthText(Math.abs(up), unit)} ${up > 0 ? 'up' : 'down'}`,
  ]
    .filter(Boolean)
    .join(', ')
}
