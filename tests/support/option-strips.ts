import { BUILDS } from '../../src/body/builds'
import { makeBody } from '../../src/body/model'
import { FLAT } from '../../src/contact/ground'
import type { LimbId } from '../../src/document/contacts'
import type { Plan, Take } from '../../src/document/plan'
import { boundsOf } from '../../src/draw/layout'
import type { Item } from '../../src/draw/list'
import { PALETTES } from '../../src/draw/palette'
import { drawPicture } from '../../src/draw/picture'
import type { ViewId } from '../../src/draw/project'
import { toSvg } from '../../src/draw/svg'
import { newPlan } from '../../src/plan/new'
import { loadsAt, makeMotion } from '../../src/pose/between'
import { makeStance, type StanceId } from '../../src/pose/stances'
import { tellingKeys } from '../../src/screen/shift/option-words'
import { planShift } from '../../src/shift/planner/plan'
import type { Goal, ShiftOption } from '../../src/shift/planner/types'
import type { Vec3 } from '../../src/space/vec'
import { capstone } from './capstone'

interface Asked {
  readonly who: string
  readonly plan: Plan
  readonly mover: LimbId
  readonly goal: Goal
  readonly view: ViewId
}

/** Three characters of our own, each with the first way that the planner finds for its move. */
function questions(): Asked[] {
  const porter = stancePlan('adult', 'tall-kneel', 'Porter')
  const child = stancePlan('child', 'hands-and-knees', 'Ferryman’s child')
  const height = child.body.stature
  return [
    {
      who: 'A stone-troll mason, 420 kg, brings his left foot forward',
      plan: capstone(),
      mover: 'legL',
      goal: { kind: 'half-kneel' },
      view: 'side',
    },
    {
      who: 'A porter with 18 kg on his back shuffles 8 cm to his left',
      plan: withPack(porter),
      mover: 'legL',
      goal: { kind: 'shuffle', by: 0.08 },
      view: 'front',
    },
    {
      who: 'A ferryman’s child on hands and knees reaches for a rope',
      plan: child,
      mover: 'armR',
      goal: { kind: 'reach', to: [-0.1 * height, 0.34 * height, 0.62 * height] },
      view: 'side',
    },
  ]
}

function stancePlan(build: string, stance: StanceId, character: string): Plan {
  const { spec } = BUILDS.find(({ id }) => id === build) ?? (BUILDS[0] as (typeof BUILDS)[number])
  const { controls, contacts } = makeStance(stance, makeBody(spec), FLAT)
  return newPlan({
    title: character,
    character,
    body: spec,
    controls,
    contacts: contacts.map(({ id: _, from: __, to: ___, ...contact }) => contact),
  })
}

function withPack(plan: Plan): Plan {
  const take = plan.takes[0] as Take
  const offset: Vec3 = [0, 0, -0.12]
  const pack = {
    id: 'pack',
    name: 'Pack',
    mass: 18,
    on: 'back' as const,
    offset,
    from: 0,
    to: take.length - 1,
  }
  return { ...plan, takes: [{ ...take, loads: [pack] }] }
}

function firstWay({ plan, mover, goal, who }: Asked): ShiftOption {
  const { ground, gravity, rate } = plan
  const take = plan.takes[0] as Take
  const fps = rate.num / rate.den
  const steps = planShift({
    body: makeBody(plan.body),
    ground,
    gravity,
    fps,
    take,
    frame: 0,
    mover,
    goal,
    pace: 0.3,
  })
  let step = steps.next()
  while (!step.done) step = steps.next()
  const [option] = step.value.found ? step.value.options : []
  if (!option) throw new Error(`no way was found for: ${who}`)
  return option
}

/** The three as one SVG drawing: a row each, its key poses with frame and phase. */
export function optionStrips(): { readonly svg: string; readonly width: number; readonly height: number } {
  const rows = questions().map((asked) => ({ asked, option: firstWay(asked) }))
  const width = ACROSS * CELL.width
  const height = rows.length * (CELL.height + HEAD + FOOT)
  const inner = rows.flatMap(({ asked, option }, row) => {
    const top = row * (CELL.height + HEAD + FOOT)
    const head = `${asked.who} — ${option.name.toLowerCase()}, ${option.frames} frames`
    return [text(0, top + 18, head, true), ...cells(asked, option, top + HEAD, row)]
  })
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}"><rect width="${width}" height="${height}" fill="${PALETTES.paper.paper}"/>${inner.join('')}</svg>`
  return { svg, width, height }
}

const ACROSS = 7
const CELL = { width: 118, height: 118 }
const HEAD = 28
const FOOT = 44

function cells({ plan, view }: Asked, option: ShiftOption, top: number, row: number): string[] {
  const body = makeBody(plan.body)
  const motion = makeMotion(body, option.take)
  const frames = tellingKeys(option, ACROSS)
  const poses = frames.map((frame) => motion.poseAt(frame))
  const bounds = boundsOf(body, poses)
  return frames.map((frame, i) => {
    const left = i * CELL.width
    const list = drawPicture({
      body,
      pose: poses[i] as (typeof poses)[number],
      boxes: plan.ground.boxes,
      carried: loadsAt(option.take, frame),
      view,
      ...CELL,
      bounds,
      mover: option.take.mover.limb,
    })
    const phase = option.keys.find((key) => key.frame === frame)?.phase ?? ''
    const drawn = toSvg(list, { palette: PALETTES.paper, prefix: `r${row}c${i}`, background: false })
    return [
      drawn.replace('<svg ', `<svg x="${left}" y="${top}" `),
      text(left + 8, top + CELL.height + 16, String(plan.firstFrame + frame), true),
      text(left + 8, top + CELL.height + 32, phase, false),
    ].join('')
  })
}

const text = (x: number, y: number, words: string, bold: boolean): string => {
  const item: Item = {
    kind: 'text',
    x: 0,
    y: 0,
    text: words,
    size: 13,
    bold,
    anchor: 'start',
    ink: bold ? 'ink' : 'inkSoft',
  }
  const list = { width: ACROSS * CELL.width, height: 20, title: '', desc: '', items: [{ ...item, y: 14 }] }
  return toSvg(list, { palette: PALETTES.paper, prefix: `t${x}-${y}`, background: false }).replace(
    '<svg ',
    `<svg x="${x}" y="${y - 14}" `,
  )
}
