import { LIMBS, type LimbId, sideOf } from '../document/contacts'
import type { ReachedPose } from '../pose/types'
import { COULD_LET_GO, EMPTY_SHARE, LENGTH_PER_STATURE, PUSH_NONE, TOTAL_LIMIT } from '../weigh/constants'
import { moverPads } from '../weigh/pose'
import type { Verdict } from '../weigh/types'
import { carriedBy, padsOfLimb } from './carried'
import { massText, number, percentText } from './format'
import { force, type How, type HowFacts, type HowInput, input, STATICS, subscript } from './how'
import { limbNoun } from './limbs'

/** How loads, leasts, the verdict and the push from nowhere are worked out; `of` is the mover or a limb. */
export function loadHows(facts: HowFacts): How[] {
  const { take, pose, weighed, verdict, plan } = facts
  const mover: Group = {
    of: 'mover',
    name: limbName(pose, take.mover.limb, take.mover.toesStay),
    pads: moverPads(pose.pads, take.mover),
    least: verdict.least,
  }
  const limbs = LIMBS.map((id): Group & { readonly of: LimbId } => ({
    of: id,
    name: limbName(pose, id),
    pads: padsOfLimb(pose.pads, id),
    least: weighed.weighing.limbs.find((limb) => limb.id === id)?.least ?? 0,
  }))
  return [
    ...[mover, ...limbs].flatMap((group) => carriedHows(facts, group)),
    verdictHow(facts, 'verdict', mover, verdict),
    ...limbs.map((limb) => verdictHow(facts, `verdict.${limb.of}`, limb, weighed.verdicts[limb.of])),
    ...pushHows(facts, plan.gravity),
  ]
}

interface Group {
  /** Ends the ids: 'share.mover'. */
  readonly of: string
  readonly name: string
  readonly pads: ReadonlySet<string>
  /** N */
  readonly least: number
}

function carriedHows({ plan, pose, weighed }: HowFacts, { of, name, pads, least }: Group): How[] {
  const { gravity } = plan
  const { contacts } = weighed.weighing
  const own = contacts.filter(({ id }) => pads.has(id))
  if (own.length === 0) return []
  const carried = carriedBy(weighed.weighing, pads, least, gravity)
  const parts: HowInput[] = own.map(({ id, force: [, up] }, i) =>
    force(`k${subscript(i + 1)}`, `${padName(pose, id)} presses up`, up, gravity),
  )
  const sum = parts.map(({ symbol }) => symbol).join(' + ')
  const pressed = own.reduce((total, { load }) => total + load, 0)
  const mass = input('m', 'all that weighs: he and what he carries', pose.mass, 'kg')
  return [
    {
      id: `share.${of}`,
      title: `What ${name} carries of the weight`,
      formula: `s = (${sum}) ÷ m`,
      inputs: [...parts, mass],
      result: { value: carried.share, text: percentText(carried.share) },
      words: SPLIT,
      source: SPLIT_SOURCE,
    },
    {
      id: `mass.${of}`,
      title: `What ${name} carries in kilograms`,
      formula: `k = ${sum}`,
      inputs: parts,
      result: { value: carried.mass, text: massText(carried.mass, pose.mass) },
      words: ['The force upward, as the mass that it would hold up.', ...SPLIT],
      source: SPLIT_SOURCE,
    },
    {
      id: `least.${of}`,
      title: `The least ${name} could carry`,
      formula: pressed > 0 ? 'n = s · min(1, l ÷ p)' : 'n = s',
      inputs: [
        input('s', 'share it carries', carried.share, ''),
        ...(pressed > 0
          ? [
              force('l', 'least it could be pressed with', least, gravity),
              force('p', 'it is pressed with', pressed, gravity),
            ]
          : []),
      ],
      result: { value: carried.least, text: percentText(carried.least) },
      words: [
        'The least is the answer of a linear programme: of all forces that hold this very pose, those that press the limb least.',
        `Each pad’s force is made of eight that lie on its friction cone and of its own in the split; no pad takes more than its limit, all together no more than ${TOTAL_LIMIT} times the weight.`,
        'On a slope the upward part goes in proportion.',
      ],
      source: `${STATICS} Friction by Coulomb. The programme and its limits are ours.`,
    },
  ]
}

const SPLIT = [
  'Of all forces on the pads that hold the body, those with the least sum of force² ÷ stiffness over the pads’ corners: stiff pads take more, and no pad pulls or holds sideways beyond its friction.',
]
const SPLIT_SOURCE = `${STATICS} Friction by Coulomb. Sharing by stiffness, as elastic supports do, is common practice for statically indeterminate bodies; the stiffnesses are ours.`

function verdictHow({ weighed, plan }: HowFacts, id: string, { name, pads }: Group, verdict: Verdict): How {
  const weight = weighed.body.mass * plan.gravity
  const limits = { empty: `${100 * EMPTY_SHARE} %`, free: `${number(100 * COULD_LET_GO, 2)} %` }
  return {
    id,
    title: `Can ${name} lift?`,
    formula: `v = off if c < 1; empty if p < ${limits.empty}; could let go if l < ${limits.free}; on the edge if l < ${limits.empty}; else pinned`,
    inputs: [
      input('c', 'pads it stands on', pads.size, ''),
      {
        ...input('p', 'it is pressed with, over the weight', verdict.load / weight, ''),
        newtons: verdict.load,
      },
      {
        ...input('l', 'least it could be pressed with, over the weight', verdict.least / weight, ''),
        newtons: verdict.least,
      },
    ],
    result: { value: verdict.kind, text: verdict.kind },
    words: [
      'A limb that nobody could see carrying anything is empty; one that could carry nothing may be let go.',
    ],
    source: 'Words and limits are ours.',
  }
}

function pushHows({ pose, weighed, body }: HowFacts, gravity: number): How[] {
  const { push } = weighed.weighing
  if (push.size < PUSH_NONE) return []
  const kilograms = push.size * pose.mass
  const turn = Math.hypot(...push.moment)
  return [
    {
      id: 'push',
      title: 'The push from nowhere',
      formula: `k = √(f² + (t ÷ (${LENGTH_PER_STATURE} · H))²)`,
      inputs: [
        force('f', 'force that no pad gives', Math.hypot(...push.force), gravity),
        { ...input('t', 'turning force that no pad gives', turn / gravity, 'kg m'), newtons: turn },
        input('H', 'his height', body.stature, 'm'),
      ],
      result: { value: kilograms, text: massText(kilograms, pose.mass) },
      words: [
        'What is left when the pads have given all they can. A turning force counts by the force it is at a quarter of his height.',
        `Below ${number(100 * PUSH_NONE, 2)} % of the weight there is none.`,
      ],
      source: `${STATICS} The quarter of the height is ours.`,
    },
  ]
}

/** 'his left leg', 'his left knee' where the toes stay. */
function limbName(pose: ReachedPose, limb: LimbId, toesStay = false): string {
  const kinds = new Set(pose.pads.filter((pad) => pad.limb === limb).map(({ kind }) => kind))
  const noun = toesStay && limb.startsWith('leg') ? 'knee' : limbNoun(limb, kinds)
  return `his ${sideOf(limb) === 'L' ? 'left' : 'right'} ${noun}`
}

/** 'knee L' */
function padName(pose: ReachedPose, id: string): string {
  const pad = pose.pads.find((one) => one.id === id)
  return pad === undefined ? id : `${pad.kind === 'kneecap' ? 'knee' : pad.kind} ${sideOf(pad.part)}`
}
