import { readFileSync } from 'node:fs'
import { PICTURE_LIMITS, pictureHead } from '../../src/export/picture-head'
import { weighProblem } from '../../src/export/problem'
import { packSlot, unpackSlot } from '../../src/keep/slots'
import type { Fault } from '../../src/plan/faults'
import { readProblem } from '../../src/plan/problem'
import { faultsOf, readPlan } from '../../src/plan/read'
import { writePlan } from '../../src/plan/write'
import { random } from '../../src/space/random'
import { mutateText, mutateValue } from '../plan/mutate'
import { pick, type Source, smallPlan, wholeBetween } from '../plan/random-plan'
import { PICTURES } from './pictures'
import { must, mustBeNumbers, type Soak } from './soak'

/** Any file that was changed somewhere: what it should have been, or a coded reason. */
export const loaders: Soak = {
  name: 'loaders',
  long: 1_000_000,
  most: 1_000,
  regressions: [],
  attempt(seed) {
    const next = random(seed)
    pick(next, [aPlan, aPlan, aProblem, aPicture, aSlot])(next)
    must(Object.keys(Object.prototype).length === 0, () => 'every object has a new field')
    return undefined
  },
}

function aPlan(next: Source): void {
  const read = readPlan(changed(next, pick(next, PLANS)))
  if (!read.ok) {
    inOrder(read.faults)
    return
  }
  const faults = faultsOf(read.plan)
  must(faults.length === 0, () => `it was read with a fault: ${faults[0]?.message}`)
  mustBeNumbers(read.plan, 'plan')
  const again = readPlan(writePlan(read.plan))
  must(again.ok, () => 'it can’t be read again')
  must(writePlan(again.plan) === writePlan(read.plan), () => 'read again it is another')
}

function aProblem(next: Source): void {
  const read = readProblem(changed(next, pick(next, PROBLEMS)))
  if (!read.ok) {
    inOrder(read.faults)
    return
  }
  // A room may be infinite; a number that is none may not be there.
  mustBeNumbers(weighProblem(read.problem), 'report', true)
}

function aPicture(next: Source): void {
  const bytes = mutateBytes(next, pick(next, PICTURES))
  const head = pictureHead(bytes)
  if (!head.ok) {
    must(head.message.length > 0, () => 'no reason is given')
    return
  }
  const { width, height } = head
  const { side, pixels } = PICTURE_LIMITS
  must(width >= 1 && height >= 1 && width <= side && height <= side, () => `${width} × ${height}`)
  must(width * height <= pixels, () => `${width} × ${height} pixels`)
}

/** What the browser's storage gives back: the very plan that was put there, or nothing. */
function aSlot(next: Source): void {
  const plan = PLANS[wholeBetween(next, 0, PLANS.length - 1)] as string
  const text = mutateText(next, packSlot({ sequence: 3, saved: 5 }, plan))
  const slot = unpackSlot(text)
  must(slot === undefined || slot.planText === plan, () => 'another plan came out of the slot')
}

function inOrder(faults: readonly Fault[]): void {
  must(faults.length >= 1 && faults.length <= 21, () => `${faults.length} faults`)
  for (const { code, message } of faults) {
    must(/^[a-z0-9-]+$/.test(code), () => `a code is ${code}`)
    must(message.length > 0 && message.length < 1_000 && !/\n/.test(message), () => `a message is ${message}`)
  }
}

/** A file's text or bytes with something changed. */
function changed(next: Source, text: string): string | Uint8Array {
  const what = next()
  if (what < 0.4) return JSON.stringify(mutateValue(next, JSON.parse(text)))
  if (what < 0.43) return JSON.stringify(swollen(next, JSON.parse(text)))
  if (what < 0.8) return mutateText(next, next() < 0.5 ? text : mutateText(next, text))
  return mutateBytes(next, new TextEncoder().encode(text))
}

/** One list hundreds of times as long as it was. */
function swollen(next: Source, value: unknown): unknown {
  const lists: unknown[][] = []
  const collect = (node: unknown) => {
    if (Array.isArray(node)) lists.push(node)
    if (typeof node === 'object' && node !== null) Object.values(node).forEach(collect)
  }
  collect(value)
  const list = pick(next, lists)
  const once = [...list]
  for (let times = wholeBetween(next, 1, 300); times > 0; times--) list.push(...once)
  return value
}

function mutateBytes(next: Source, bytes: Uint8Array): Uint8Array {
  const copy = bytes.slice()
  for (let i = wholeBetween(next, 1, 4); i > 0; i--)
    copy[wholeBetween(next, 0, Math.min(copy.length, next() < 0.5 ? 40 : copy.length) - 1)] = wholeBetween(
      next,
      0,
      255,
    )
  if (next() < 0.3) return copy.slice(0, wholeBetween(next, 0, copy.length))
  return copy
}

const PLANS: readonly string[] = [
  ...[1, 2, 3].map((seed) => JSON.stringify(JSON.parse(writePlan(smallPlan(seed))))),
  JSON.stringify(JSON.parse(readFileSync('tests/golden/plan-v1-least.json', 'utf8'))),
]

const PROBLEMS: readonly string[] = [
  {
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
  },
  {
    format: 'weighbridge-problem',
    version: 1,
    title: 'On three points, one of them a wall',
    gravity: 3.7,
    mass: 310,
    com: [0.1, 0.9, -0.05],
    size: 2.2,
    force: [30, 0, -12],
    moment: [0, 5, 0],
    loads: [{ force: [0, -200, 0], at: [0.3, 1.2, 0.1] }],
    contacts: [
      {
        id: 'a',
        limb: 'leg',
        vertices: [[0.2, 0, 0]],
        normal: [0, 1, 0],
        friction: 0.5,
        stiffness: 1,
        limit: 2,
      },
      {
        id: 'b',
        limb: 'leg',
        vertices: [[-0.2, 0, 0.1]],
        normal: [0, 1, 0],
        friction: 0.5,
        stiffness: 0.2,
        limit: 2,
      },
      {
        id: 'c',
        limb: 'arm',
        vertices: [[0, 1, 0.6]],
        normal: [0, 0, -3],
        friction: 0.3,
        stiffness: 0.5,
        limit: 1,
      },
    ],
  },
].map((problem) => JSON.stringify(problem))
