import type { BodyModel } from '../../body/model'
import type { ChannelId, Controls } from '../../document/channels'
import { CHANNELS } from '../../document/channels'
import type { ContactPart, ContactSpan } from '../../document/contacts'
import type { Box, Ground, Plan } from '../../document/plan'
import { changeContact } from '../../plan/edit/contacts'
import { changeBox } from '../../plan/edit/ground'
import { setControls } from '../../plan/edit/keys'
import type { FootWay } from '../../pose/grasp'
import { type Handle, type HandleId, handlesOf } from '../../pose/handles'
import { moveHandle } from '../../pose/move-handle'
import { slideChannels } from '../../pose/sliding'
import type { ReachedPose } from '../../pose/types'
import { apply, fromAngles, type Mat3, transpose } from '../../space/rotation'
import { add, sub, type Vec3 } from '../../space/vec'
import type { Target } from './target'

/** Something on the stage that can be taken hold of: a part of the body or of a block. */
export interface Holdable {
  readonly id: string
  /** 'left knee' */
  readonly name: string
  /** What dragging it does: 'slides the kneecap over the ground'. */
  readonly does: string
  readonly at: Vec3
  /** The handle of the pose that this is, or null. */
  readonly handle: HandleId | null
  readonly limb: Handle['limb'] | null
  readonly part: ContactPart | null
  readonly channels: readonly ChannelId[]
  /**
   * Takes hold: what is returned makes of the plan as it is now the plan with the thing at a target, as near as
   * it goes. `free` is the direction that the view shows as a point.
   */
  hold(): (target: Vec3, free: Vec3) => Plan
}

export interface PoseScene {
  readonly plan: Plan
  readonly takeId: string
  readonly frame: number
  readonly body: BodyModel
  readonly pose: ReachedPose
  /** Those that hold at the frame. */
  readonly contacts: readonly ContactSpan[]
  readonly foot: FootWay
}

/** The handles of the pose at a frame. */
export function poseHoldables(scene: PoseScene): Holdable[] {
  const { plan, takeId, frame, body, pose, contacts, foot } = scene
  return handlesOf(body, pose, contacts).map(({ id, name, does, at, limb, part, channels }) => ({
    id,
    name,
    does,
    at,
    handle: id,
    limb,
    part,
    channels,
    hold: () => (target, free) => {
      const moved = moveHandle({
        body,
        ground: plan.ground,
        asked: pose.asked,
        contacts,
        handle: id,
        target,
        free,
        foot,
        start: pose,
      })
      return withMoved(plan, takeId, frame, { controls: pose.asked, contacts }, moved)
    },
  }))
}

/** A place that a page asks for: moving it leaves the plan as it is. */
export const targetHoldable = ({ name, at, move }: Target, plan: Plan): Holdable => ({
  id: 'target',
  name,
  does: 'says where the limb is to go',
  at,
  handle: null,
  limb: null,
  part: null,
  channels: [],
  hold: () => (target) => {
    move(target)
    return plan
  },
})

interface Asked {
  readonly controls: Controls
  readonly contacts: readonly ContactSpan[]
}

/** The plan with what changed keyed at the frame, and the contacts that slid in their new places. */
function withMoved(plan: Plan, takeId: string, frame: number, before: Asked, after: Asked): Plan {
  const changed = CHANNELS.filter(
    (channel) => Math.abs(after.controls[channel] - before.controls[channel]) > ROUNDING,
  )
  const values: Partial<Record<ChannelId, number>> = Object.fromEntries(
    changed.map((channel) => [channel, after.controls[channel]]),
  )
  const slid = after.contacts.filter((span, i) => span !== before.contacts[i])
  for (const span of slid) if (span.state === 'sliding') Object.assign(values, slidKeys(span, before))
  return slid.reduce(
    (made, { id, position, heading, state }) =>
      changeContact(made, takeId, id, state === 'sliding' ? { heading } : { position, heading }),
    Object.keys(values).length > 0 ? setControls(plan, takeId, frame, values) : plan,
  )
}

/** A contact that slides goes where the part's keys go: keyed as far as it was moved. */
function slidKeys(span: ContactSpan, before: Asked): Partial<Controls> {
  const was = before.contacts.find(({ id }) => id === span.id)
  const by = was ? sub(span.position, was.position) : ([0, 0, 0] as const)
  const channels = slideChannels(span.part)
  return Object.fromEntries(
    channels.map((channel, i) => [channel, before.controls[channel] + (by[i] as number)]),
  )
}

/** A free limb carried along by a part that didn't move differs by rounding only, m or rad. */
const ROUNDING = 1e-9

/** A block is moved by the middle of its top and sized by its top's edges and height. */
export function boxHoldables(plan: Plan, ground: Ground): Holdable[] {
  return ground.boxes.flatMap((box) => {
    const frame = fromAngles({ turn: box.turn, list: 0, tilt: 0 })
    const [w, h, d] = box.size
    const on = (x: number, y: number, z: number): Vec3 => add(box.position, apply(frame, [x, y, z]))
    const name = box.name || 'block'
    const grip = (
      id: string,
      what: string,
      does: string,
      at: Vec3,
      change: (moved: Vec3, local: Vec3) => Partial<Omit<Box, 'id'>>,
    ): Holdable => ({
      id: `${box.id}-${id}`,
      name: `${name}${what}`,
      does,
      at,
      handle: null,
      limb: null,
      part: null,
      channels: [],
      hold: () => (target) => {
        const moved = sub(target, at)
        return changeBox(plan, box.id, change(moved, apply(transpose(frame), moved)))
      },
    })
    return [
      grip('place', '', 'moves the block over the ground', on(0, h, 0), ([x, , z]) => ({
        position: add(box.position, [x, 0, z]),
      })),
      grip('height', ': height', 'makes the block higher or lower', on(w / 4, h, d / 4), ([, y]) => ({
        size: [w, h + y, d],
      })),
      ...edges(box, frame, grip, on),
    ]
  })
}

type Grip = (
  id: string,
  what: string,
  does: string,
  at: Vec3,
  change: (moved: Vec3, local: Vec3) => Partial<Omit<Box, 'id'>>,
) => Holdable

/** The edge opposite to the one that is moved stays. */
function edges(box: Box, frame: Mat3, grip: Grip, on: (x: number, y: number, z: number) => Vec3): Holdable[] {
  const [w, h, d] = box.size
  const side = (id: string, what: string, axis: 0 | 2, sign: 1 | -1) => {
    const at = axis === 0 ? on((sign * w) / 2, h / 2, 0) : on(0, h / 2, (sign * d) / 2)
    return grip(id, what, 'makes the block longer or shorter', at, (_, local) => {
      const least = 0.01
      const by = Math.max(sign * local[axis], least - (axis === 0 ? w : d))
      const shift: Vec3 = axis === 0 ? [(sign * by) / 2, 0, 0] : [0, 0, (sign * by) / 2]
      return {
        size: axis === 0 ? [w + by, h, d] : [w, h, d + by],
        position: add(box.position, apply(frame, shift)),
      }
    })
  }
  return [
    side('left', ': left side', 0, 1),
    side('right', ': right side', 0, -1),
    side('front', ': front', 2, 1),
    side('back', ': back', 2, -1),
  ]
}
