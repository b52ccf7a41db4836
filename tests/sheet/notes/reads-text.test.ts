import { expect, it } from 'vitest'
import { readsAsText } from '../../../src/sheet/notes/reads-text'
import { readsAs } from '../../../src/shift/reads-as'

const says = (pace: number) =>
  readsAsText(readsAs({ seconds: pace, least: 1 }, { stature: 1.75, mass: 75 })).replaceAll('\u00a0', ' ')

it('says the range, or that there is none', () => {
  // At pace 1.5 the sizes are (1.5 / 1.8)² = 0.694 and (1.5 / 1.2)² = 1.5625 times one's own.
  expect(says(1.5)).toBe('Reads as a body of 1.2 to 2.7 m, 25 to 290 kg.')
  expect(says(5)).toBe('Reads as slow, not large.')
  expect(says(0.9)).toMatch(
    /^No body of this size can do it so quickly; it is the timing of a body of 0\.44 to 0\.98 m/,
  )
})
