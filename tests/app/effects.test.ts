import { expect, test } from 'vitest'
import { seenByAnEffect } from '../support/counted-effect.svelte'

test('effects run in unit tests, as Svelte compiles for the browser there', () => {
  expect(seenByAnEffect(1, 2)).toEqual([1, 2])
})
