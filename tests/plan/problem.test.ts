import { describe, expect, it } from 'vitest'
import { checkProblem, readProblem } from '../../src/plan/problem'

const crate = {
  format: 'weighbridge-problem',
  version: 1,
  mass: 20,
  com: [0, 0.5, 0],
  contacts: [
    {
      id: 'base',
      vertices: [
        [-0.5, 0, -0.5],
        [-0.5, 0, 0.5],
        [0.5, 0, 0.5],
        [0.5, 0, -0.5],
      ],
      normal: [0, 1, 0],
      friction: 0.7,
    },
  ],
}

const contact = (change: object) => ({ ...crate, contacts: [{ ...crate.contacts[0], ...change }] })

const faultsIn = (value: unknown): string[] => {
  const read = checkProblem(value)
  return read.ok ? [] : read.faults.map(({ code, path }) => `${code} ${path}`)
}

describe('a plain problem file', () => {
  it('is read, with what it leaves out filled in', () => {
    const read = readProblem(JSON.stringify(crate))
    expect(read).toMatchObject({
      ok: true,
      problem: {
        title: '',
        gravity: 9.81,
        force: [0, 0, 0],
        moment: [0, 0, 0],
        loads: [],
        contacts: [{ id: 'base', limb: 'base', stiffness: 1, limit: 3 }],
      },
    })
    // Twice the half diagonal of a cube of 1 m.
    expect(read.ok && read.problem.size).toBeCloseTo(Math.sqrt(3), 12)
  })

  it('keeps what it says', () => {
    const said = {
      ...crate,
      size: 4,
      gravity: 9.8,
      force: [1, 2, 3],
      loads: [{ force: [0, -5, 0], at: [1, 1, 1] }],
    }
    expect(checkProblem(said)).toMatchObject({ ok: true, problem: said })
  })

  it('may have two contacts on one spot, and all contacts on one line', () => {
    const [base] = crate.contacts
    expect(faultsIn({ ...crate, contacts: [base, { ...base, id: 'again' }] })).toEqual([])
    const foot = (id: string, x: number) => ({ ...base, id, vertices: [[x, 0, 0]] })
    expect(faultsIn({ ...crate, contacts: [foot('a', -1), foot('b', 0), foot('c', 1)] })).toEqual([])
  })

  it.each<[string, unknown, string[]]>([
    ['another format', { ...crate, format: 'weighbridge-plan' }, ['not-ours ']],
    ['no object', [crate], ['not-ours ']],
    ['a newer version', { ...crate, version: 2 }, ['newer-version /version']],
    ['no version', { ...crate, version: undefined }, ['bad-version /version']],
    ['no mass', { ...crate, mass: undefined }, ['wrong-type /mass']],
    ['a negative mass', { ...crate, mass: -20 }, ['out-of-range /mass']],
    ['an absurd mass', { ...crate, mass: 1e12 }, ['out-of-range /mass']],
    ['NaN', { ...crate, com: [0, Number.NaN, 0] }, ['not-finite /com/1']],
    ['infinity', contact({ friction: Number.POSITIVE_INFINITY }), ['not-finite /contacts/0/friction']],
    ['negative friction', contact({ friction: -0.1 }), ['out-of-range /contacts/0/friction']],
    ['no contact', { ...crate, contacts: [] }, ['too-few /contacts']],
    ['contacts that are no list', { ...crate, contacts: {} }, ['wrong-type /contacts']],
    ['a contact that is no object', { ...crate, contacts: [7] }, ['wrong-type /contacts/0']],
    ['no vertex', contact({ vertices: [] }), ['too-few /contacts/0/vertices']],
    [
      'too many vertices',
      contact({ vertices: Array(13).fill([0, 0, 0]) }),
      ['too-many /contacts/0/vertices'],
    ],
    ['too many contacts', { ...crate, contacts: Array(65).fill(crate.contacts[0]) }, ['too-many /contacts']],
    ['a vertex of two numbers', contact({ vertices: [[0, 0]] }), ['too-few /contacts/0/vertices/0']],
    ['a normal of no length', contact({ normal: [0, 0, 0] }), ['out-of-range /contacts/0/normal']],
    [
      'a bent patch',
      contact({
        vertices: [
          [0, 0, 0],
          [1, 0.5, 0],
          [0, 0, 1],
        ],
      }),
      ['bad-outline /contacts/0/vertices/1'],
    ],
    ['a bad id', contact({ id: 'toString' }), ['bad-id /contacts/0/id']],
    [
      'two contacts of one id',
      { ...crate, contacts: [crate.contacts[0], crate.contacts[0]] },
      ['duplicate-id /contacts/1/id'],
    ],
    ['a field it doesn’t know', { ...crate, clamp: true }, ['unknown-field /clamp']],
  ])('is refused for %s', (_, value, faults) => {
    expect(faultsIn(value)).toEqual(faults)
  })

  it('is refused for a field that would reach into every object', () => {
    const text = JSON.stringify(crate).replace('"mass"', '"__proto__":{"mass":1},"mass"')
    const read = readProblem(text)
    expect(read.ok || read.faults.map(({ code, path }) => code + path)).toEqual(['forbidden-field/__proto__'])
    expect(({} as { mass?: number }).mass).toBeUndefined()
  })

  it('is refused for what is no JSON', () => {
    for (const text of ['', 'weight', '{"format":', new Uint8Array([0xff, 0xfe, 0x00])]) {
      const read = readProblem(text)
      expect(read.ok).toBe(false)
      expect(read.ok || read.faults.length).toBe(1)
    }
  })
})
