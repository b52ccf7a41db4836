import { type BodyModel, SIDES } from '../body/model'
import { along } from '../contact/pads'
import { CHANNELS, type ChannelId, type Controls, type Key } from '../document/channels'
import { type ContactSpan, partKind, sideOf } from '../document/contacts'
import type { Take } from '../document/plan'
import { add, addScaled, dot, scale, sub, UP, type Vec3 } from '../space/vec'
import { contactsAt } from './between'
import { channelAt } from './curve'
import { kneelReach } from './foot'
import { placeIn, put } from './grasp'
import { reach } from './reach'

/**
 * A take made for one body, fitted to another of about the same size: stances get as wide and as long as
 * the new body's hips, thighs, shins and arms want them, free limbs keep their drawing. What stands on a
 * block stays on it; frames, angles and eases stay.
 */
export function refitTake(take: Take, before: BodyModel, after: BodyModel): Take {
  const fit = fitting(take, before, after)
  const contacts = take.contacts.map((span) => fitContact(take, span, fit))
  const values = new Map<number, Controls>()
  const at = (frame: number): Controls => {
    const known = values.get(frame)
    if (known) return known
    const made = fitControls(take, contacts, frame, fit)
    values.set(frame, made)
    return made
  }
  const channels = Object.fromEntries(
    CHANNELS.map((id) => [id, take.channels[id].map((key) => ({ ...key, value: at(key.frame)[id] }))]),
  ) as unknown as Record<ChannelId, readonly Key[]>
  return { ...take, channels, contacts }
}

interface Fit {
  readonly before: BodyModel
  readonly after: BodyModel
  /** The stance's middle, and the level directions in which it is stretched. */
  readonly middle: Vec3
  readonly left: Vec3
  readonly ahead: Vec3
  readonly ratio: Readonly<Record<'hips' | 'shoulders' | 'thigh' | 'leg' | 'arm' | 'trunk', number>>
}

function fitting(take: Take, before: BodyModel, after: BodyModel): Fit {
  const { ahead, left } = along(UP, channelAt(take.channels['pelvis.turn'], 0))
  const ofLegs = take.contacts.filter(({ part, from }) => partKind(part) !== 'hand' && from === 0)
  const knees = ofLegs.filter(({ part }) => partKind(part) === 'knee')
  const over = (length: (body: BodyModel) => number) => length(after) / length(before)
  return {
    before,
    after,
    left,
    ahead,
    middle: mean((knees.length > 0 ? knees : ofLegs).map(({ position }) => position)),
    ratio: {
      hips: over((body) => body.hipWidth),
      shoulders: over((body) => body.shoulderWidth),
      thigh: over(({ lengths }) => lengths.thigh),
      leg: over(({ lengths }) => lengths.thigh + lengths.shank + lengths.ankleHeight),
      arm: over(({ lengths }) => lengths.upperArm + lengths.forearm + lengths.hand),
      trunk: over(({ lengths }) => lengths.lowerTrunk + lengths.middleTrunk + lengths.upperTrunk),
    },
  }
}

function mean(places: readonly Vec3[]): Vec3 {
  return scale(places.reduce(add, [0, 0, 0] as Vec3), 1 / Math.max(1, places.length))
}

/** A place stretched about the stance's middle, sideways and along; its height stays. */
function stretched({ middle, left, ahead }: Fit, place: Vec3, sideways: number, lengthways: number): Vec3 {
  const off = sub(place, middle)
  const moved = addScaled(
    scale(left, dot(off, left) * (sideways - 1)),
    ahead,
    dot(off, ahead) * (lengthways - 1),
  )
  return add(place, moved)
}

function fitContact(take: Take, span: ContactSpan, fit: Fit): ContactSpan {
  if (span.on !== 'ground') return span
  const { ratio } = fit
  const position =
    partKind(span.part) === 'hand'
      ? stretched(fit, span.position, ratio.shoulders, ratio.trunk)
      : (kneelingFoot(take, span, fit) ?? stretched(fit, span.position, ratio.hips, ratio.thigh))
  return { ...span, position }
}

/** A kneeling foot lies a shin's length behind its knee. */
function kneelingFoot(take: Take, foot: ContactSpan, fit: Fit): Vec3 | null {
  const { kind } = foot
  if (kind !== 'toes' && kind !== 'instep') return null
  const side = sideOf(foot.part)
  const knee = take.contacts.find((s) => s.part === `knee${side}` && s.from <= foot.to && foot.from <= s.to)
  if (knee === undefined) return null
  const length = (body: BodyModel) => {
    const { kneeAhead, footBehind } = kneelReach(body, side, kind)
    return kneeAhead + footBehind
  }
  const ratio = length(fit.after) / length(fit.before)
  return add(fitContact(take, knee, fit).position, scale(sub(foot.position, knee.position), ratio))
}

/** The asked pose of a frame for the new body. */
function fitControls(take: Take, contacts: readonly ContactSpan[], frame: number, fit: Fit): Controls {
  const { before, after, ratio } = fit
  const asked = Object.fromEntries(
    CHANNELS.map((id) => [id, channelAt(take.channels[id], frame)]),
  ) as Controls
  const old = contactsAt(take, frame)
  const held = contacts.filter((span) => span.from <= frame && frame <= span.to)
  const was = reach(before, asked, old)
  const kneels = old.some(({ part }) => partKind(part) === 'knee')
  const place = stretched(fit, placeIn(asked, 'pelvis'), ratio.hips, ratio.thigh)
  const height = place[1] * (kneels ? ratio.thigh : ratio.leg)
  let made = bent(after, { ...asked, ...put('pelvis', [place[0], height, place[2]]) }, held)
  const is = reach(after, made, held)
  for (const side of SIDES) {
    const carry = (id: `leg${typeof side}.knee` | `leg${typeof side}.ankle` | `arm${typeof side}.hand`) => {
      const [root, r] = id.startsWith('arm')
        ? ([`shoulder${side}`, ratio.arm] as const)
        : ([`hip${side}`, ratio.leg] as const)
      const way = sub(placeIn(asked, id), was.joints[root])
      made = { ...made, ...put(id, addScaled(is.joints[root], way, r)) }
    }
    carry(`leg${side}.knee`)
    carry(`leg${side}.ankle`)
    carry(`arm${side}.hand`)
  }
  return made
}

/** The least change of the pelvis's tilt with which every planted part is met; the head looks where it looked. */
function bent(body: BodyModel, controls: Controls, held: readonly ContactSpan[]): Controls {
  for (let step = 0; step <= MOST_TILT; step += TILT_STEP)
    for (const by of step === 0 ? [0] : [step, -step]) {
      const tilted = {
        ...controls,
        'pelvis.tilt': controls['pelvis.tilt'] + by,
        'head.tilt': controls['head.tilt'] - by,
      }
      if (reach(body, tilted, held).pads.length === held.length) return tilted
    }
  return controls
}

/** Steps and end of the search for a tilt that lets the hands reach, rad. */
const TILT_STEP = Math.PI / 36
const MOST_TILT = Math.PI / 3
