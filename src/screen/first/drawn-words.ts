import type { BodyModel } from '../../body/model'
import type { Mover, Plan, Take } from '../../document/plan'
import { stageMover, stageWeights } from '../../draw/input'
import { boundsOf, layoutStage } from '../../draw/layout'
import type { DisplayList } from '../../draw/list'
import { withMotion } from '../../draw/motion-marks'
import { drawStage } from '../../draw/stage'
import { setControls } from '../../plan/edit/keys'
import { newPlan } from '../../plan/new'
import { loadsAt, makeMotion } from '../../pose/between'
import { makeStance } from '../../pose/stances'
import type { ReachedPose } from '../../pose/types'
import { centimetres, massText, neededText } from '../../sheet/format'
import { scale } from '../../space/vec'
import { type DynamicFrame, weighMotion } from '../../weigh/dynamic'
import { findLeans } from '../../weigh/lean'
import { weighPose } from '../../weigh/pose'

export interface DrawnWord {
  readonly word: string
  readonly text: string
  readonly list: DisplayList
}

/**
 * The words of this page, each drawn on a body in a tall kneel on flat ground whose left knee has to go: every
 * picture is weighed as the drawing itself is, none is made up.
 */
export function drawnWords(body: BodyModel, plan: Plan): DrawnWord[] {
  const slow = shifting(plan, body, SLOW)
  const fast = shifting(plan, body, FAST)
  const press = greatest(slow, ({ weighing }) => limbShare(weighing.limbs, 'legL'))
  const push = greatest(fast, ({ weighing }) => weighing.push.size)
  const picture = pictures(body, slow)
  return [
    {
      word: 'Plumb',
      text: 'The weight dropped straight down, from the centre of mass to its point on the floor. While that point lies inside what touches the ground, he can hold still there.',
      list: picture(slow.motion.poseAt(0), { mover: false }),
    },
    {
      word: 'Pinned',
      text: 'This limb must carry something: take it away and the plumb lies outside what is left, so he falls. The band shows where the weight would have to be for the limb to be empty.',
      list: picture(slow.motion.poseAt(0), {}),
    },
    {
      word: 'Press',
      text: 'Before a limb leaves it pushes: its load rises while the body already starts the other way. Without it the body seems to be pulled by a string.',
      list: picture(slow.motion.poseAt(press.frame), { motion: press }),
    },
    {
      word: 'Sink',
      text: 'The body comes down onto the side that bears. The limb still touches but need carry nothing any more: now it may lift.',
      list: picture(slow.motion.poseAt(slow.take.length - 1), {}),
    },
    {
      word: 'Push from nowhere',
      text: 'What would have to push him for this frame to happen, since no contact can. Here he goes the same way in five frames. An audience reads it as no weight at all.',
      list: picture(fast.motion.poseAt(push.frame), { motion: push, mover: false }),
    },
  ]
}

/** Frames for the same shift: one that can be believed, and one that cannot. */
const SLOW = 40
const FAST = 5
/** The whole leg; where its knees are too far apart for that, the kneecap alone. */
const MOVERS: readonly Mover[] = [
  { limb: 'legL', toesStay: false },
  { limb: 'legL', toesStay: true },
]
const SIZE = { width: 250, height: 236 }

type Shift = ReturnType<typeof shifting>

/** From a tall kneel to the lean that empties the mover, in so many frames. */
function shifting(open: Plan, body: BodyModel, frames: number) {
  const ground = { grip: 'normal', boxes: [] } as const
  const { controls, contacts } = makeStance('tall-kneel', body, ground)
  const leans = MOVERS.flatMap((mover) =>
    findLeans({ body, ground, gravity: open.gravity, controls, contacts, loads: [], mover }).map((lean) => ({
      lean,
      mover,
    })),
  )
  const chosen = leans.find(({ lean }) => lean.works) ?? leans[0]
  const started = newPlan({
    title: '',
    character: '',
    body: open.body,
    gravity: open.gravity,
    controls,
    contacts: contacts.map(({ id: _, from: __, to: ___, ...contact }) => contact),
    ...(chosen && { mover: chosen.mover }),
    length: frames + 1,
  })
  const { id } = started.takes[0] as Take
  const plan = chosen ? setControls(started, id, frames, chosen.lean.controls) : started
  const take = plan.takes[0] as Take
  const motion = makeMotion(body, take)
  const fps = plan.rate.num / plan.rate.den
  const problem = { body, take, motion, ground, gravity: plan.gravity, fps }
  return { plan, take, motion, weighed: [...weighMotion(problem, { ranges: false, region: false })] }
}

const limbShare = (limbs: DynamicFrame['weighing']['limbs'], id: string): number =>
  limbs.find((limb) => limb.id === id)?.load ?? 0

const greatest = ({ weighed }: Shift, of: (frame: DynamicFrame) => number): DynamicFrame =>
  weighed.reduce((most, frame) => (of(frame) > of(most) ? frame : most))

/** Draws poses of a shift at one scale. */
function pictures(body: BodyModel, { plan, take, motion }: Shift) {
  const layout = layoutStage({
    ...SIZE,
    arrangement: { kind: 'single', view: 'front' },
    bounds: boundsOf(body, [motion.poseAt(0), motion.poseAt(take.length - 1)]),
    facing: { sideFrom: 'R', mirrored: false },
    loadRows: 1,
  })
  return (
    pose: ReachedPose,
    { mover = true, motion: moving }: { mover?: boolean; motion?: DynamicFrame },
  ) => {
    const weighed = weighPose(plan.ground, plan.gravity, body.stature, pose)
    const verdict = weighed.judge(take.mover)
    const { list } = drawStage({
      layout,
      body,
      pose,
      carried: loadsAt(take, 0),
      weights: stageWeights(moving?.weighing ?? weighed.weighing, pose.mass),
      ...(mover && {
        mover: {
          ...stageMover(take.mover.limb, verdict),
          ...(verdict.empty && { distance: neededText(verdict.empty.distance, centimetres(body.stature)) }),
        },
      }),
      show: { letters: false },
      words: { views: { front: '', side: '', floor: '' } },
    })
    if (moving === undefined || moving.weighing.push.size < SHOWN) return list
    const { push, weighing, body: whole } = moving
    return withMotion(list, layout, body.stature, {
      push: {
        at: push.at,
        force: scale(weighing.push.force, 1 / (whole.mass * whole.gravity)),
        kilograms: massText(push.kilograms, whole.mass),
      },
      path: [],
      keys: new Set(),
      frame: moving.frame,
      centreOfPressure: null,
    })
  }
}

/** A smaller push is not drawn, W. */
const SHOWN = 0.02
