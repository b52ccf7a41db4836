import { KNEECAP_DOWN } from '../body/constants'
import { type BodyModel, SIDES, type Side } from '../body/model'
import { surfaceBelow } from '../contact/ground'
import type { ChannelId, Controls } from '../document/channels'
import { CHANNELS } from '../document/channels'
import type { ContactKind, ContactPart, ContactSpan } from '../document/contacts'
import type { Ground } from '../document/plan'
import { add, scale, UP, type Vec3 } from '../space/vec'
import { kneelReach } from './foot'
import { reach } from './reach'

/**
 * A stance to start from: an asked pose and the contacts that hold it, for this body on this ground,
 * facing +Z with the pelvis above x = 0. The pose is already within reach.
 */
export function makeStance(id: StanceId, body: BodyModel, ground: Ground): Stance {
  const draft = DRAFTS[id](body)
  const contacts = draft.contacts.map((c): ContactSpan => {
    const top = surfaceBelow(ground, add(c.position, scale(UP, body.stature)))
    return {
      id: c.part,
      part: c.part,
      kind: c.kind,
      position: [c.position[0], top.height, c.position[2]],
      heading: 0,
      normal: UP,
      on: top.on,
      from: 0,
      to: 0,
      state: 'planted',
    }
  })
  return { id, contacts, controls: reach(body, draft.controls, contacts).reached }
}

export type StanceId =
  | 'tall-kneel'
  | 'heel-sit'
  | 'half-kneel-left'
  | 'half-kneel-right'
  | 'hands-and-knees'
  | 'standing'

export const STANCES: readonly { readonly id: StanceId; readonly name: string }[] = [
  { id: 'tall-kneel', name: 'Tall kneel' },
  { id: 'heel-sit', name: 'Heel sit' },
  { id: 'half-kneel-left', name: 'Half kneel, left foot up' },
  { id: 'half-kneel-right', name: 'Half kneel, right foot up' },
  { id: 'hands-and-knees', name: 'Hands and knees' },
  { id: 'standing', name: 'Standing' },
]

export interface Stance {
  readonly id: StanceId
  readonly controls: Controls
  /** Spans from frame 0 to frame 0; stretch them over a take. */
  readonly contacts: readonly ContactSpan[]
}

interface Draft {
  readonly controls: Controls
  readonly contacts: readonly { part: ContactPart; kind: ContactKind; position: Vec3 }[]
}

const DRAFTS: Record<StanceId, (body: BodyModel) => Draft> = {
  'tall-kneel': (body) => {
    const knees = kneeling(body, SIDES, 'toes')
    return {
      contacts: knees,
      controls: draftControls(body, {
        'pelvis.y': body.lengths.thigh + kneeHeight(body),
        'pelvis.z': 0,
      }),
    }
  },
  'heel-sit': (body) => {
    const { shank } = body.lengths
    return {
      contacts: kneeling(body, SIDES, 'instep'),
      controls: draftControls(body, {
        'pelvis.y': body.lengths.thigh * 0.42 + kneeHeight(body),
        'pelvis.z': -shank * 0.86,
        'chest.tilt': 0.06,
      }),
    }
  },
  'half-kneel-left': (body) => halfKneel(body, 'L'),
  'half-kneel-right': (body) => halfKneel(body, 'R'),
  'hands-and-knees': (body) => {
    const { upperArm, forearm } = body.lengths
    const trunk = body.lengths.lowerTrunk + body.lengths.middleTrunk + body.lengths.shoulderOnUpperTrunk
    // Thighs and arms upright; the trunk slopes from the hips' height to the shoulders'.
    const hipHeight = body.lengths.thigh + kneeHeight(body)
    const shoulderHeight = (upperArm + forearm) * 0.97 + body.lengths.hand * 0.3
    const rise = Math.max(-0.9, Math.min(0.9, (shoulderHeight - hipHeight) / trunk))
    const ahead = trunk * Math.sqrt(1 - rise * rise)
    return {
      contacts: [
        ...kneeling(body, SIDES, 'instep'),
        ...SIDES.map((side) => ({
          part: `hand${side}` as ContactPart,
          kind: 'palm' as ContactKind,
          position: [outward(side) * body.shoulderWidth * 0.5, 0, ahead] as Vec3,
        })),
      ],
      controls: draftControls(body, {
        'pelvis.y': hipHeight,
        'pelvis.tilt': Math.acos(rise),
        'head.tilt': -0.6,
      }),
    }
  },
  standing: (body) => ({
    contacts: SIDES.map((side) => ({
      part: `foot${side}` as ContactPart,
      kind: 'sole' as ContactKind,
      position: [outward(side) * body.hipWidth * 0.62, 0, soleAhead(body)] as Vec3,
    })),
    controls: draftControls(body, {
      'pelvis.y': (body.lengths.thigh + body.lengths.shank) * 0.985 + body.lengths.ankleHeight,
    }),
  }),
}

const outward = (side: Side) => (side === 'L' ? 1 : -1)
const kneeHeight = (body: BodyModel) => 2 * body.segments.shankL.spread[0] * KNEECAP_DOWN
/** Middle of a sole ahead of its ankle. */
const soleAhead = (body: BodyModel) => body.lengths.foot / 2 - body.lengths.heelToAnkle

/** Kneecaps under the hip joints, the feet where the shins put them. */
function kneeling(body: BodyModel, sides: readonly Side[], kind: 'toes' | 'instep') {
  return sides.flatMap((side) => {
    const { kneeAhead, footBehind } = kneelReach(body, side, kind)
    const x = outward(side) * body.hipWidth * 0.62
    return [
      {
        part: `knee${side}` as ContactPart,
        kind: 'kneecap' as ContactKind,
        position: [x, 0, kneeAhead] as Vec3,
      },
      {
        part: `foot${side}` as ContactPart,
        kind: kind as ContactKind,
        position: [x, 0, -footBehind] as Vec3,
      },
    ]
  })
}

function halfKneel(body: BodyModel, forward: Side): Draft {
  const back: Side = forward === 'L' ? 'R' : 'L'
  const { thigh, shank, ankleHeight } = body.lengths
  const hip = thigh * 0.99 + kneeHeight(body)
  // The forward shin stands upright, the thigh goes level to it.
  const ahead = Math.sqrt(Math.max(0, thigh ** 2 - (hip - shank - ankleHeight) ** 2)) * 0.97
  const x = outward(forward) * body.hipWidth * 0.75
  return {
    contacts: [
      ...kneeling(body, [back], 'toes'),
      { part: `foot${forward}`, kind: 'sole', position: [x, 0, ahead + soleAhead(body)] },
    ],
    controls: draftControls(body, {
      'pelvis.y': hip,
      [`leg${forward}.knee.x`]: x * 1.1,
      [`leg${forward}.knee.y`]: shank + ankleHeight,
      [`leg${forward}.knee.z`]: ahead + thigh,
    }),
  }
}

/** Upright with the arms hanging a little forward; `set` overrides single channels. */
function draftControls(body: BodyModel, set: Partial<Record<ChannelId, number>>): Controls {
  const zero = Object.fromEntries(CHANNELS.map((id) => [id, 0])) as Record<ChannelId, number>
  const draft = { ...zero, ...set }
  const { lengths } = body
  for (const side of SIDES) {
    const x = outward(side)
    const defaults: Partial<Record<ChannelId, number>> = {
      [`leg${side}.knee.x`]: x * body.hipWidth * 0.62,
      [`leg${side}.knee.y`]: lengths.shank,
      [`leg${side}.knee.z`]: body.stature,
      [`leg${side}.ankle.x`]: x * body.hipWidth * 0.62,
      [`leg${side}.ankle.y`]: lengths.ankleHeight,
    }
    for (const [id, value] of Object.entries(defaults))
      if (!(id in set)) draft[id as ChannelId] = value as number
  }
  return hangArms(body, draft)
}

/** Puts the free hands where relaxed arms hang: below the shoulders, elbows a little bent. */
function hangArms(body: BodyModel, controls: Controls): Controls {
  const { joints } = reach(body, controls, [])
  const { upperArm, forearm, hand } = body.lengths
  const out: Record<string, number> = { ...controls }
  for (const side of SIDES) {
    const shoulder = joints[`shoulder${side}`]
    const drop = (upperArm + forearm + hand) * 0.955
    out[`arm${side}.hand.x`] = shoulder[0] + outward(side) * body.stature * 0.018
    out[`arm${side}.hand.y`] = shoulder[1] - drop
    out[`arm${side}.hand.z`] = shoulder[2] + body.stature * 0.03
  }
  return out as Controls
}
