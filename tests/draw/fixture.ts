import { BUILDS } from '../../src/body/builds'
import { type BodyModel, makeBody } from '../../src/body/model'
import type { ContactSpan } from '../../src/document/contacts'
import type { Box } from '../../src/document/plan'
import { type StageInput, stageMover, stageWeights } from '../../src/draw/input'
import { boundsOf, type LayoutOptions, layoutStage } from '../../src/draw/layout'
import { reach } from '../../src/pose/reach'
import { makeStance, type StanceId } from '../../src/pose/stances'
import type { ReachedPose } from '../../src/pose/types'
import { weighPose } from '../../src/weigh/pose'

export const bodyOf = (id: string): BodyModel => {
  const build = BUILDS.find((b) => b.id === id)
  if (!build) throw new Error(`no build ${id}`)
  return makeBody(build.spec)
}

export function stancePose(body: BodyModel, id: StanceId): ReachedPose {
  const stance = makeStance(id, body, { grip: 'normal', boxes: [] })
  return reach(body, stance.controls, stance.contacts)
}

/** A course of stone 0.45 m high before the midline. */
export const COURSE: Box = {
  id: 'course',
  name: 'Course',
  position: [0, 0, 0.62],
  size: [0.42, 0.45, 0.5],
  turn: 0,
  grip: 'rough',
}

/** The mason kneeling tall, leaning on his left fist on the course: like the demo's first frame. */
export function fistOnCourse(body: BodyModel): ReachedPose {
  const stance = makeStance('tall-kneel', body, { grip: 'normal', boxes: [] })
  const fist: ContactSpan = {
    id: 'handL',
    part: 'handL',
    kind: 'fist',
    position: [0, 0.45, 0.55],
    heading: 0,
    normal: [0, 1, 0],
    on: 'course',
    from: 0,
    to: 0,
    state: 'planted',
  }
  const controls = { ...stance.controls, 'pelvis.tilt': 0.25, 'chest.tilt': 0.12, 'head.tilt': -0.2 }
  return reach(body, controls, [...stance.contacts, fist])
}

/** A stage with everything on it. */
export function stageOf(
  body: BodyModel,
  pose: ReachedPose,
  options: Partial<LayoutOptions> & {
    readonly boxes?: readonly Box[]
    readonly move?: readonly [number, number]
  } = {},
): StageInput {
  const { boxes = [], move, ...layout } = options
  const { weighing, verdicts } = weighPose({ grip: 'normal', boxes }, 9.81, body.stature, pose)
  const mover = stageMover('legL', verdicts.legL, pose.segments.lowerTrunk)
  return {
    body,
    pose,
    boxes,
    layout: layoutStage({
      width: 830,
      height: 676,
      arrangement: { kind: 'quarter' },
      bounds: boundsOf(body, [pose], boxes),
      ...layout,
    }),
    weights: stageWeights(weighing, pose.mass),
    mover: move ? { ...mover, move, distance: `${Math.round(Math.hypot(...move) * 100)} cm` } : mover,
  }
}

export const STANCE_IDS: readonly StanceId[] = [
  'standing',
  'tall-kneel',
  'heel-sit',
  'half-kneel-left',
  'hands-and-knees',
]
