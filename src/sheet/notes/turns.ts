import { type Mat3, multiply, transpose } from '../../space/rotation'

/** The orientation of b as a sees it. */
export const relative = (a: Mat3, b: Mat3): Mat3 => multiply(transpose(a), b)

/** The angle between two orientations, rad, 0 … π: from the distance of their matrices, exact also for small ones. */
export function between(a: Mat3, b: Mat3): number {
  let square = 0
  for (let i = 0; i < 9; i++) square += ((a[i] as number) - (b[i] as number)) ** 2
  return 2 * Math.asin(Math.min(1, Math.sqrt(square / 8)))
}

/** The angle between the axes that two orientations give the third, second or first direction (column 0 … 2), rad. */
export function betweenAxes(a: Mat3, b: Mat3, column: 0 | 1 | 2): number {
  let square = 0
  for (let i = 0; i < 9; i += 3) square += ((a[i + column] as number) - (b[i + column] as number)) ** 2
  return 2 * Math.asin(Math.min(1, Math.sqrt(square) / 2))
}
