import { expect, test } from 'vitest'
import { radians } from '../../src/space/units'
import { wayOf } from '../../src/trial/way'

const at = (degrees: number) => [Math.sin(radians(degrees)), 0, Math.cos(radians(degrees))] as const

test.each([
  [0, 0, ['forward']],
  [20, 0, ['forward']],
  [40, 0, ['forward', 'left']],
  [50, 0, ['left', 'forward']],
  [90, 0, ['left']],
  [130, 0, ['left', 'back']],
  [180, 0, ['back']],
  [-90, 0, ['right']],
  [-140, 0, ['back', 'right']],
  // He faces the way that was his left: the same direction is now ahead of him.
  [90, 90, ['forward']],
  [0, 90, ['right']],
  [180, 90, ['left']],
])('a direction %i° to the left of +Z, for one turned %i° to the left', (direction, turn, words) => {
  expect(wayOf(at(direction), radians(turn))).toEqual(words)
})
