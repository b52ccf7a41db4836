import { makeBody } from '../../src/body/model'
import type { Plan, Take } from '../../src/document/plan'
import { changeTake } from '../../src/plan/edit/change'
import { setControls } from '../../src/plan/edit/keys'
import { makeMotion } from '../../src/pose/between'
import { stancePlan } from './plans'

/**
 * A first pass as a reviewer sends it back: a grown person, kneeling tall, shoves the left knee a quarter metre
 * forward in six frames and takes the whole trunk half way along; the knee is marked as sliding and never empty.
 */
export function slippingPlan(): Plan {
  const plan = stancePlan('tall-kneel', 'Slipping knee')
  const take = plan.takes[0] as Take
  const { asked } = makeMotion(makeBody(plan.body), take).poseAt(0)
  const start = changeTake(plan, take.id, (one) => ({
    ...one,
    name: 'First pass',
    length: FRAMES,
    contacts: one.contacts.map((span) => ({
      ...span,
      to: FRAMES - 1,
      state: span.part.endsWith('L') ? ('sliding' as const) : span.state,
    })),
  }))
  const moved = {
    ...asked,
    'legL.knee.z': asked['legL.knee.z'] + STEP,
    'legL.ankle.z': asked['legL.ankle.z'] + STEP,
    'pelvis.x': asked['pelvis.x'] - 0.06,
    'pelvis.z': asked['pelvis.z'] + STEP / 3,
  }
  const first = setControls(start, take.id, 4, asked)
  return setControls(first, take.id, 10, moved)
}

/** The second key stands at frame 10, six after the first. */
const FRAMES = 15
/** m */
const STEP = 0.25
