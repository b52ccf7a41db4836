import { BUILDS } from '../../src/body/builds'
import { CHANNELS, type ChannelId, type Controls, isAngle, type Key } from '../../src/document/channels'
import {
  CONTACT_PARTS,
  type ContactPart,
  type ContactSpan,
  KINDS_OF,
  LIMBS,
  partKind,
} from '../../src/document/contacts'
import { type Box, PHASES, type Plan, type Take } from '../../src/document/plan'
import { type Arc, EXPOSURES, STYLES } from '../../src/document/take'
import { newPlan } from '../../src/plan/new'
import { between, random } from '../../src/space/random'

export type Source = () => number

export const pick = <T>(next: Source, list: readonly T[]): T => list[Math.floor(next() * list.length)] as T
export const wholeBetween = (next: Source, least: number, most: number): number =>
  Math.floor(between(next, least, most + 1))

/** A number with at most nine decimals, as a file holds it. */
const onGrid = (value: number): number => Math.round(value * 1e9) / 1e9

export const randomControls = (next: Source): Controls =>
  Object.fromEntries(
    CHANNELS.map((channel) => [
      channel,
      onGrid(isAngle(channel) ? between(next, -3, 3) : between(next, -2, 2)),
    ]),
  ) as Record<ChannelId, number>

/** A valid plan with something in every list; the same for the same source. */
export function randomPlan(next: Source): Plan {
  const length = wholeBetween(next, 8, 120)
  const boxes = Array.from({ length: wholeBetween(next, 1, 4) }, (_, i) => randomBox(next, `box-${i + 1}`))
  const base = newPlan({
    title: 'Über den Zaun "2"',
    character: 'Ferryman’s child',
    body: roundedBody(pick(next, BUILDS).spec),
    controls: randomControls(next),
    length,
    rate: pick(next, [
      { num: 24, den: 1 },
      { num: 24000, den: 1001 },
      { num: 60, den: 1 },
    ]),
    ground: { grip: pick(next, ['slippery', 'normal', 'rough']), boxes },
  })
  const takes = Array.from({ length: wholeBetween(next, 1, 3) }, (_, i) =>
    randomTake(next, base.takes[0] as Take, `take-${i + 1}`, boxes),
  )
  const camera = {
    position: [onGrid(between(next, -8, 8)), onGrid(between(next, 0, 3)), 6.5],
    aim: [onGrid(between(next, -1, 1)), 0.9, 0],
    lens: 35,
  } as const
  return { ...base, camera: next() < 0.8 ? camera : null, stiffness: { palm: 0.8, toes: 0.2 }, takes }
}

/** A plan small enough to be read thousands of times, with something in every list. */
export function smallPlan(seed: number): Plan {
  const plan = randomPlan(random(seed))
  const takes = plan.takes.slice(0, 1).map((take) => {
    const channels = Object.fromEntries(
      CHANNELS.map((channel) => [channel, take.channels[channel].slice(0, 1)]),
    ) as Record<ChannelId, Key[]>
    return { ...take, channels }
  })
  return { ...plan, takes }
}

function roundedBody<T>(value: T): T {
  if (typeof value === 'number') return onGrid(value) as T
  return Object.fromEntries(
    Object.entries(value as object).map(([name, part]) => [name, roundedBody(part)]),
  ) as T
}

export function randomBox(next: Source, id: string): Box {
  const size = () => onGrid(between(next, 0.1, 1.5))
  return {
    id,
    name: pick(next, ['step', 'course of stone', 'kerb']),
    position: [onGrid(between(next, -2, 2)), 0, onGrid(between(next, -2, 2))],
    size: [size(), size(), size()],
    turn: onGrid(between(next, -1, 1)),
    grip: pick(next, ['slippery', 'normal', 'rough']),
  }
}

function randomTake(next: Source, base: Take, id: string, boxes: readonly Box[]): Take {
  const { length } = base
  const frame = () => wholeBetween(next, 0, length - 1)
  const span = () => {
    const [a, b] = [frame(), frame()]
    return { from: Math.min(a, b), to: Math.max(a, b) }
  }
  const keyPoses = [...new Set([0, frame(), frame(), frame()])]
  const channels = Object.fromEntries(
    CHANNELS.map((channel) => [channel, randomKeys(next, next() < 0.1 ? [...keyPoses, frame()] : keyPoses)]),
  ) as Record<ChannelId, Key[]>
  return {
    ...base,
    id,
    name: pick(next, ['first try', 'lean further', '']),
    exposure: pick(next, EXPOSURES),
    style: pick(next, STYLES),
    push: onGrid(between(next, 1, 2)),
    pace: onGrid(next()),
    lags: { ...base.lags, head: onGrid(between(next, -12, 12)), armL: 1.5, legR: -0.5 },
    channels,
    contacts: CONTACT_PARTS.flatMap((part) => randomSpans(next, part, length, boxes)),
    arcs: LIMBS.flatMap((limb) => randomArcs(next, limb, length)),
    loads: [{ id: 'load-1', name: 'pack', mass: 12.5, on: 'handL', offset: [0.1, 0, -0.2], ...span() }],
    phases: [{ id: 'phase-1', name: pick(next, PHASES), ...span() }],
    accents: [
      { id: 'accent-1', frame: frame(), name: 'blink' },
      { id: 'accent-2', frame: frame(), name: 'fist closes' },
    ],
    notes: [{ id: 'note-1', frame: frame(), text: 'hips first\n\tthen the chest' }],
    setAside: [{ id: 'aside-1', rule: 'knee-slides', from: frame(), reason: 'wet stone\nmeant so' }],
    mover: { limb: pick(next, ['legL', 'legR', 'armL', 'armR']), toesStay: next() < 0.5 },
  }
}

const randomKeys = (next: Source, frames: readonly number[]): Key[] =>
  [...new Set(frames)]
    .sort((a, b) => a - b)
    .map((frame) => ({
      frame,
      value: onGrid(between(next, -3, 3)),
      in: onGrid(next()),
      out: onGrid(next()),
    }))

/** Some of a limb's arcs end where the next begins. */
function randomArcs(next: Source, limb: Arc['limb'], length: number): Arc[] {
  const cuts = [...new Set([0, 1, 2].map(() => wholeBetween(next, 0, length - 1)))].sort((a, b) => a - b)
  return cuts.slice(1).map((to, i) => ({
    id: `${limb}-${i + 1}`,
    limb,
    from: cuts[i] as number,
    to,
    height: onGrid(between(next, -0.2, 0.5)),
    side: onGrid(between(next, -0.3, 0.3)),
  }))
}

function randomSpans(next: Source, part: ContactPart, length: number, boxes: readonly Box[]): ContactSpan[] {
  const cuts = [...new Set([0, 1, 2, 3].map(() => wholeBetween(next, 0, length)))].sort((a, b) => a - b)
  return cuts.slice(1).flatMap((end, i) => {
    if (next() < 0.4) return []
    return {
      id: `${part}-${i + 1}`,
      part,
      kind: pick(next, KINDS_OF[partKind(part)]),
      position: [onGrid(between(next, -2, 2)), 0.45, onGrid(between(next, -2, 2))] as const,
      heading: onGrid(between(next, -3, 3)),
      normal: [0, 1, 0] as const,
      on: next() < 0.5 ? 'ground' : pick(next, boxes).id,
      from: cuts[i] as number,
      to: end - 1,
      state: pick(next, ['planted', 'sliding', 'rolling'] as const),
    }
  })
}
