import { describe, expect, it } from 'vitest'
import { KINDS_OF } from '../../src/document/contacts'
import type { Plan } from '../../src/document/plan'
import { faultsOf, readPlan } from '../../src/plan/read'
import { writePlan } from '../../src/plan/write'
import { random } from '../../src/space/random'
import { randomPlan } from './random-plan'

type Json = Record<string, unknown> & { [name: string]: never }

const plan: Plan = { ...randomPlan(random(7)), title: 'a plan' }

/** The faults of a plan's file after a change to its parsed JSON. */
function faultsAfter(change: (json: Json) => void) {
  const json = JSON.parse(writePlan(plan)) as Json
  change(json)
  return faultsIn(JSON.stringify(json))
}

function faultsIn(text: string | Uint8Array) {
  const read = readPlan(text)
  return read.ok ? [] : read.faults
}

/** Each change that breaks a plan, the code it must get and where. */
const BREAKS: readonly [name: string, code: string, path: string, change: (json: Json) => void][] = [
  ['another format', 'not-ours', '', (j) => set(j, 'format', 'something')],
  ['no format', 'not-ours', '', (j) => unset(j, 'format')],
  ['a newer version', 'newer-version', '/version', (j) => set(j, 'version', 2)],
  ['version 0', 'bad-version', '/version', (j) => set(j, 'version', 0)],
  ['a version in quotes', 'bad-version', '/version', (j) => set(j, 'version', '1')],
  ['no version', 'bad-version', '/version', (j) => unset(j, 'version')],
  ['a missing field', 'missing-field', '/body/mass', (j) => unset(j, 'body', 'mass')],
  ['an unknown field', 'unknown-field', '/body/age', (j) => set(j, 'body', 'age', 3)],
  ['a mass in quotes', 'wrong-type', '/body/mass', (j) => set(j, 'body', 'mass', '75')],
  ['a negative mass', 'out-of-range', '/body/mass', (j) => set(j, 'body', 'mass', -75)],
  ['an absurd stature', 'out-of-range', '/body/stature', (j) => set(j, 'body', 'stature', 3000)],
  ['widths beyond the body', 'width-out-of-range', '/body/hipWidth', (j) => set(j, 'body', 'hipWidth', 40)],
  ['a rate of 0.5', 'rate-out-of-range', '/rate', (j) => set(j, 'rate', { num: 1, den: 2 })],
  ['a rate of 1000', 'rate-out-of-range', '/rate', (j) => set(j, 'rate', { num: 1000, den: 1 })],
  ['half a frame', 'not-whole', '/takes/0/length', (j) => set(j, 'takes', 0, 'length', 10.5)],
  ['no takes', 'too-few', '/takes', (j) => set(j, 'takes', [])],
  ['takes that are no list', 'wrong-type', '/takes', (j) => set(j, 'takes', {})],
  ['a place of two numbers', 'too-few', '/scene/root', (j) => set(j, 'scene', 'root', [0, 0])],
  ['a place of four numbers', 'too-many', '/scene/root', (j) => set(j, 'scene', 'root', [0, 0, 0, 0])],
  ['a place far away', 'out-of-range', '/scene/root/1', (j) => set(j, 'scene', 'root', 1, 1001)],
  ['an unknown grip', 'not-a-choice', '/ground/grip', (j) => set(j, 'ground', 'grip', 'sticky')],
  ['a line break in a title', 'bad-text', '/title', (j) => set(j, 'title', 'a\nb')],
  ['a long title', 'bad-text', '/title', (j) => set(j, 'title', 'é'.repeat(201))],
  ['half a surrogate pair', 'bad-text', '/title', (j) => set(j, 'title', '\ud83d')],
  ['an empty id', 'bad-id', '/takes/0/id', (j) => set(j, 'takes', 0, 'id', '')],
  ['an id that every object has', 'bad-id', '/takes/0/id', (j) => set(j, 'takes', 0, 'id', 'toString')],
  [
    'a box called ground',
    'duplicate-id',
    '/ground/boxes/0/id',
    (j) => set(j, 'ground', 'boxes', 0, 'id', 'ground'),
  ],
  [
    'a missing channel',
    'missing-field',
    '/takes/0/channels/head.turn',
    (j) => unset(j, 'takes', 0, 'channels', 'head.turn'),
  ],
  [
    'an unknown channel',
    'unknown-field',
    '/takes/0/channels/tail.turn',
    (j) => set(j, 'takes', 0, 'channels', 'tail.turn', []),
  ],
  [
    'a channel without keys',
    'too-few',
    '/takes/0/channels/pelvis.x',
    (j) => set(j, 'takes', 0, 'channels', 'pelvis.x', []),
  ],
  [
    'too many keys',
    'too-many',
    '/takes/0/channels/pelvis.x',
    (j) => set(j, 'takes', 0, 'channels', 'pelvis.x', Array(5001).fill(0)),
  ],
  [
    'keys out of order',
    'keys-out-of-order',
    '/takes/0/channels/pelvis.x/1/frame',
    (j) => set(j, 'takes', 0, 'channels', 'pelvis.x', [key(3), key(1)]),
  ],
  [
    'two keys on one frame',
    'keys-out-of-order',
    '/takes/0/channels/pelvis.x/1/frame',
    (j) => set(j, 'takes', 0, 'channels', 'pelvis.x', [key(3), key(3)]),
  ],
  [
    'a key past the end',
    'outside-take',
    '/takes/0/channels/pelvis.x/0/frame',
    (j) => set(j, 'takes', 0, 'channels', 'pelvis.x', [key(19_999)]),
  ],
  [
    'an ease above 1',
    'out-of-range',
    '/takes/0/channels/pelvis.x/0/in',
    (j) => set(j, 'takes', 0, 'channels', 'pelvis.x', [{ ...key(0), in: 1.5 }]),
  ],
  [
    'a place given as an angle',
    'out-of-range',
    '/takes/0/channels/pelvis.turn/0/value',
    (j) => set(j, 'takes', 0, 'channels', 'pelvis.turn', [{ ...key(0), value: 180 }]),
  ],
  [
    'a span backwards',
    'span-reversed',
    '/takes/0/phases/0/to',
    (j) => set(j, 'takes', 0, 'phases', [{ id: 'p', name: 'lean', from: 4, to: 2 }]),
  ],
  [
    'a span past the end',
    'outside-take',
    '/takes/0/phases/0/to',
    (j) => set(j, 'takes', 0, 'phases', [{ id: 'p', name: 'lean', from: 4, to: 15_000 }]),
  ],
  [
    'a note past the end',
    'outside-take',
    '/takes/0/notes/0/frame',
    (j) => set(j, 'takes', 0, 'notes', [{ id: 'n', frame: 15_000, text: '' }]),
  ],
  [
    'two notes with one id',
    'duplicate-id',
    '/takes/0/notes/1/id',
    (j) => set(j, 'takes', 0, 'notes', [note('n'), note('n')]),
  ],
  [
    'a kneecap on a hand',
    'kind-not-allowed',
    '/takes/0/contacts/0/kind',
    (j) => set(j, 'takes', 0, 'contacts', [contact({ part: 'handL' })]),
  ],
  [
    'a contact on no box',
    'no-such-box',
    '/takes/0/contacts/0/on',
    (j) => set(j, 'takes', 0, 'contacts', [contact({ on: 'box-99' })]),
  ],
  [
    'a long normal',
    'normal-not-unit',
    '/takes/0/contacts/0/normal',
    (j) => set(j, 'takes', 0, 'contacts', [contact({ normal: [0.5, 1, 0] })]),
  ],
  [
    'an arc backwards',
    'span-reversed',
    '/takes/0/arcs/0/to',
    (j) => set(j, 'takes', 0, 'arcs', [arc('a', 4, 2)]),
  ],
  [
    'an arc that ends where it begins',
    'span-too-short',
    '/takes/0/arcs/0/to',
    (j) => set(j, 'takes', 0, 'arcs', [arc('a', 4, 4)]),
  ],
  [
    'overlapping arcs of a limb',
    'arcs-overlap',
    '/takes/0/arcs/0',
    (j) => set(j, 'takes', 0, 'arcs', [arc('a', 3, 5), arc('b', 0, 4)]),
  ],
  [
    'an arc within a longer one',
    'arcs-overlap',
    '/takes/0/arcs/2',
    (j) => set(j, 'takes', 0, 'arcs', [arc('a', 0, 7), arc('b', 1, 2), arc('c', 4, 6)]),
  ],
  [
    'an arc past the end',
    'outside-take',
    '/takes/0/arcs/0/to',
    (j) => set(j, 'takes', 0, 'arcs', [arc('a', 3, 15_000)]),
  ],
  [
    'an accent past the end',
    'outside-take',
    '/takes/0/accents/0/frame',
    (j) => set(j, 'takes', 0, 'accents', [{ id: 'a', frame: 15_000, name: 'blink' }]),
  ],
  [
    'two accents with one id',
    'duplicate-id',
    '/takes/0/accents/1/id',
    (j) =>
      set(j, 'takes', 0, 'accents', [
        { id: 'a', frame: 0, name: '' },
        { id: 'a', frame: 1, name: '' },
      ]),
  ],
  [
    'a note set aside past the end',
    'outside-take',
    '/takes/0/setAside/0/from',
    (j) => set(j, 'takes', 0, 'setAside', [{ id: 'a', rule: 'r', from: 15_000, reason: '' }]),
  ],
  [
    'a rule that is a sentence',
    'bad-id',
    '/takes/0/setAside/0/rule',
    (j) => set(j, 'takes', 0, 'setAside', [{ id: 'a', rule: 'it slides', from: 0, reason: '' }]),
  ],
  ['on fours', 'not-a-choice', '/takes/0/exposure', (j) => set(j, 'takes', 0, 'exposure', 4)],
  ['an unknown style', 'not-a-choice', '/takes/0/style', (j) => set(j, 'takes', 0, 'style', 'wild')],
  ['less than physics', 'out-of-range', '/takes/0/push', (j) => set(j, 'takes', 0, 'push', 0.9)],
  ['a pace past thrown', 'out-of-range', '/takes/0/pace', (j) => set(j, 'takes', 0, 'pace', 1.1)],
  ['a lag of a second', 'out-of-range', '/takes/0/lags/head', (j) => set(j, 'takes', 0, 'lags', 'head', 24)],
  [
    'a part that has no lag',
    'missing-field',
    '/takes/0/lags/head',
    (j) => unset(j, 'takes', 0, 'lags', 'head'),
  ],
  ['no camera and no null', 'missing-field', '/camera', (j) => unset(j, 'camera')],
  ['a camera in words', 'wrong-type', '/camera', (j) => set(j, 'camera', 'front')],
  [
    'half a camera',
    'missing-field',
    '/camera/aim',
    (j) => set(j, 'camera', { position: [0, 0, 0], lens: 35 }),
  ],
  ['a camera at its aim', 'camera-at-aim', '/camera/aim', (j) => set(j, 'camera', camera([1, 2, 3], 35))],
  ['a lens of 4 mm', 'out-of-range', '/camera/lens', (j) => set(j, 'camera', camera([0, 2, 3], 4))],
  ['no stiffness', 'missing-field', '/stiffness', (j) => unset(j, 'stiffness')],
  ['a stiffness of nought', 'out-of-range', '/stiffness/sole', (j) => set(j, 'stiffness', { sole: 0 })],
  ['a stiffness of no pad', 'unknown-field', '/stiffness/elbow', (j) => set(j, 'stiffness', { elbow: 1 })],
  [
    'overlapping contacts of a part',
    'contacts-overlap',
    '/takes/0/contacts/0',
    (j) =>
      set(j, 'takes', 0, 'contacts', [contact({ from: 2, to: 5 }), contact({ id: 'k', from: 0, to: 2 })]),
  ],
]

const KINDS = Object.values(KINDS_OF).flat()
const key = (frame: number) => ({ frame, value: 0, in: 0, out: 0 })
const note = (id: string) => ({ id, frame: 0, text: '' })
const arc = (id: string, from: number, to: number) => ({ id, limb: 'legL', from, to, height: 0.1, side: 0 })
const camera = (position: readonly number[], lens: number) => ({ position, aim: [1, 2, 3], lens })
const contact = (changes: object) => ({
  id: 'kneeL-1',
  part: 'kneeL',
  kind: 'kneecap',
  position: [0, 0, 0],
  heading: 0,
  normal: [0, 1, 0],
  on: 'ground',
  from: 0,
  to: 3,
  state: 'planted',
  ...changes,
})

/** set(json, 'body', 'mass', 3) puts 3 at /body/mass. */
function set(json: Json, ...way: unknown[]): void {
  const value = way.pop()
  const last = way.pop() as string
  const node = way.reduce<Record<string, unknown>>((at, name) => at[name as string] as never, json)
  node[last] = value
}

function unset(json: Json, ...way: (string | number)[]): void {
  const last = way.pop() as string
  delete way.reduce<Record<string, unknown>>((at, name) => at[name] as never, json)[last]
}

describe('a plan file that is in order', () => {
  it('is read from text and from bytes, with and without a byte order mark', () => {
    const text = writePlan(plan)
    for (const file of [
      text,
      `\ufeff${text}`,
      new TextEncoder().encode(text),
      new TextEncoder().encode(`\ufeff${text}`),
    ])
      expect(readPlan(file)).toEqual({ ok: true, plan })
  })

  it('gives a plan with the fields in the order of the form, whatever their order in the file', () => {
    const json = JSON.parse(writePlan(plan)) as object
    const reversed = JSON.stringify(Object.fromEntries(Object.entries(json).reverse()))
    const read = readPlan(reversed)
    expect(read.ok && Object.keys(read.plan)).toEqual(Object.keys(plan))
  })

  it('may hold a title of 200 characters outside the basic plane', () => {
    expect(faultsOf({ ...plan, title: '🪨'.repeat(200) })).toEqual([])
    expect(faultsOf({ ...plan, title: '🪨'.repeat(201) })).toHaveLength(1)
  })

  it('may state the rate of 29.97 frames a second exactly', () => {
    expect(faultsOf({ ...plan, rate: { num: 30_000, den: 1001 } })).toEqual([])
  })

  it('may have arcs of a limb that share a frame, and arcs of two limbs at once', () => {
    const arcs = [arc('a', 0, 3), arc('b', 3, 7), { ...arc('c', 2, 5), limb: 'armR' }]
    expect(faultsAfter((j) => set(j, 'takes', 0, 'arcs', arcs))).toEqual([])
  })

  it('may name no camera and no stiffness, or every one', () => {
    for (const stiffness of [{}, Object.fromEntries(KINDS.map((kind) => [kind, 100]))]) {
      const read = readPlan(writePlan({ ...plan, camera: null, stiffness }))
      expect(read.ok && [read.plan.camera, read.plan.stiffness]).toEqual([null, stiffness])
    }
  })

  it('reads −0 as 0', () => {
    const read = readPlan(
      writePlan(plan)
        .replace('"gravity": 9.81', '"gravity": 9.81')
        .replace('"root": [0, 0', '"root": [-0, 0'),
    )
    expect(read.ok && Object.is(read.plan.scene.root[0], 0)).toBe(true)
  })
})

describe('a plan file with a fault', () => {
  it.each(BREAKS)('%s is named %s at %s', (_, code, path, change) => {
    const faults = faultsAfter(change)
    expect(faults.map((fault) => [fault.code, fault.path])).toContainEqual([code, path])
    for (const { message } of faults) {
      expect(message).not.toMatch(/[\n\r\u2028]/)
      expect(message).toMatch(/^\S.*\.$/)
    }
  })

  it.each([
    ['nothing', '', 'empty'],
    ['white space', ' \n', 'empty'],
    ['half a file', writePlan(plan).slice(0, 2000), 'not-json'],
    ['NaN', writePlan(plan).replace('9.81', 'NaN'), 'not-json'],
    ['Infinity', writePlan(plan).replace('9.81', 'Infinity'), 'not-json'],
    ['a number too large for a double', writePlan(plan).replace('9.81', '1e999'), 'not-finite'],
    ['a list', '[1, 2]', 'not-ours'],
    ['null', 'null', 'not-ours'],
    ['a number', '12', 'not-ours'],
    ['lists in lists', '['.repeat(100_000), 'too-deep'],
    ['a million empty objects', `[${'{},'.repeat(1_000_000)}{}]`, 'too-many-parts'],
    ['three million numbers', `[${'0,'.repeat(3_000_000)}0]`, 'too-many-parts'],
    [
      'an object of 101 fields',
      `{${Array.from({ length: 101 }, (_, i) => `"f${i}":0`).join()}}`,
      'too-many-parts',
    ],
    ['more than 20 MB', ' '.repeat(20_000_001), 'too-big'],
  ])('%s', (_, text, code) => {
    expect(faultsIn(text).map((fault) => fault.code)).toEqual([code])
  })

  it('that is not UTF-8 is named so, and noise of 50 MB is refused by its size', () => {
    expect(faultsIn(new Uint8Array([0x7b, 0xff, 0xfe])).map(({ code }) => code)).toEqual(['not-utf8'])
    expect(faultsIn(new Uint8Array(50_000_000)).map(({ code }) => code)).toEqual(['too-big'])
  })

  it('tells that a newer Weighbridge made it', () => {
    expect(faultsAfter((j) => set(j, 'version', 3))[0]?.message).toBe(
      '/version: made by a newer Weighbridge (version 3 of the format; this one reads 1); open it with the newer one.',
    )
  })

  it.each(['__proto__', 'constructor', 'prototype'])(
    'named %s is refused and reaches no prototype',
    (name) => {
      const text = writePlan(plan)
      for (const place of ['{', '"channels": {', '"body": {']) {
        const faults = faultsIn(text.replace(place, `${place} ${JSON.stringify(name)}: { "polluted": 1 },`))
        expect(faults.map(({ code }) => code)).toEqual(['forbidden-field'])
      }
      expect(({} as Record<string, unknown>).polluted).toBeUndefined()
    },
  )

  it('lists 20 faults and says how many more there are', () => {
    const faults = faultsAfter((j) => set(j, 'takes', 0, 'channels', {}))
    expect(faults).toHaveLength(21)
    expect(faults.slice(0, 20).every(({ code }) => code === 'missing-field')).toBe(true)
    expect(faults[20]).toEqual({ code: 'more', path: '', message: 'and 18 more.' })
  })

  it('cannot write lines of its own into a message', () => {
    const [fault] = faultsAfter((j) =>
      set(j, 'ground', 'grip', `x\n/body: all is well\u2028${'y'.repeat(1000)}`),
    )
    expect(fault?.message).not.toMatch(/[\n\u2028]/)
    expect(fault?.message.length).toBeLessThan(200)
  })
})
