import { describe, expect, it } from 'vitest'
import { checksum } from '../../src/keep/checksum'
import { memoryStorage } from '../../src/keep/fakes/storage'
import { loadPlan, packSlot, slotKey, unpackSlot } from '../../src/keep/slots'
import { writePlan } from '../../src/plan/write'
import { random } from '../../src/space/random'
import { randomPlan, wholeBetween } from '../plan/random-plan'

const older = { ...randomPlan(random(1)), title: 'older' }
const newer = { ...randomPlan(random(2)), title: 'newer' }
const A = slotKey('p', 'a')
const B = slotKey('p', 'b')
const packed = {
  older: packSlot({ sequence: 4, saved: 1000 }, writePlan(older)),
  newer: packSlot({ sequence: 5, saved: 2000 }, writePlan(newer)),
}

it('the checksum is CRC-32', () => {
  // The check value of CRC-32 for "123456789", as catalogues of such codes give it (from memory).
  expect(checksum('123456789')).toBe('cbf43926')
  expect(checksum('')).toBe('00000000')
})

describe('a slot', () => {
  it('gives back what was put in', () => {
    expect(unpackSlot(packed.older)).toEqual({ sequence: 4, saved: 1000, planText: writePlan(older) })
  })

  it('is damaged when any one character is changed, lost or added, or its end is missing', () => {
    const next = random(9)
    for (let i = 0; i < 2000; i++) {
      const at = wholeBetween(next, 0, packed.older.length - 1)
      const was = packed.older[at] as string
      const put = ['', `${was}${was === 'x' ? 'y' : 'x'}`, was === '7' ? '8' : '7'][i % 3] as string
      const text = packed.older.slice(0, at) + put + packed.older.slice(at + 1)
      const unpacked = unpackSlot(text)
      // A changed digit of the number or the time cannot be told; the plan in it is whole all the same.
      if (unpacked !== undefined) expect(unpacked.planText, `${i}, at ${at}`).toBe(writePlan(older))
      expect(unpackSlot(packed.older.slice(0, at)), `${i}, cut at ${at}`).toBeUndefined()
    }
  })
})

describe('loading a plan', () => {
  it.each([
    ['the newer of two', { [A]: packed.older, [B]: packed.newer }, 'newer', 'b', false],
    ['the only one', { [A]: packed.older }, 'older', 'a', false],
    [
      'the older when the newer is cut short',
      { [A]: packed.older, [B]: packed.newer.slice(0, 900) },
      'older',
      'a',
      true,
    ],
    ['the newer when the older is noise', { [A]: 'noise', [B]: packed.newer }, 'newer', 'b', true],
    [
      'the older when the newer holds no plan',
      { [A]: packed.older, [B]: packSlot({ sequence: 9, saved: 0 }, '{"format":"weighbridge-plan"}') },
      'older',
      'a',
      true,
    ],
  ])('takes %s', async (_, texts, title, slot, damaged) => {
    const loaded = await loadPlan(memoryStorage(new Map(Object.entries(texts))), 'p')
    expect(loaded).toMatchObject({ kind: 'loaded', plan: { title }, at: { slot }, damaged })
  })

  it('tells a plan that is not there from one that is damaged, and gives the damaged texts', async () => {
    expect(await loadPlan(memoryStorage(), 'p')).toEqual({ kind: 'absent' })
    const wrong = packSlot({ sequence: 1, saved: 0 }, '{"format":"weighbridge-plan","version":7}')
    const texts = new Map([
      [A, 'noise'],
      [B, wrong],
    ])
    const loaded = await loadPlan(memoryStorage(texts), 'p')
    expect(loaded).toMatchObject({
      kind: 'damaged',
      texts: ['noise', wrong],
      faults: [{ code: 'newer-version' }],
    })
  })
})
