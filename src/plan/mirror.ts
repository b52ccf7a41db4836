import { CHANNELS, type ChannelId, type Controls, type Key } from '../document/channels'
import type { ContactPart, ContactSpan, LimbId } from '../document/contacts'
import { LIMITS } from '../document/limits'
import type { Box, Camera, CarriedLoad, LoadPlace, Plan, Take } from '../document/plan'
import { type Arc, LAG_PARTS, type LagPart } from '../document/take'
import type { Vec3 } from '../space/vec'
import { changeTake, patch } from './edit/change'
import { changeChannels, withKey } from './edit/keys'
import { keyAt } from './key-poses'

/**
 * The plan with left and right swapped: the mirror image in the plane x = 0 of every pose, contact, arc, box
 * and load, and of the camera; lags change sides. The rig is not mirrored: its root stays where it is in the pelvis. Twice gives back the same
 * numbers to the last bit.
 */
export function mirrorPlan(plan: Plan): Plan {
  return {
    ...plan,
    camera: plan.camera && mirrorCamera(plan.camera),
    ground: { ...plan.ground, boxes: plan.ground.boxes.map(mirrorBox) },
    takes: plan.takes.map(mirrorTake),
  }
}

/**
 * The mirror image, in the plane x = 0, of what is keyed at a frame: of the whole pose at a key pose, of the
 * keyed parts at a breakdown. The keys' slow-in and slow-out go along; contacts stay. A key whose other
 * side has none at the frame goes over to it; a pair whose one side would be left without any key stays.
 */
export function mirrorTakeAt(plan: Plan, takeId: string, frame: number): Plan {
  return changeTake(plan, takeId, (take) => {
    const pairs = CHANNELS.filter((channel) => mayExchange(take, channel, otherSide(channel), frame))
    return changeChannels(take, pairs, (keys, channel) => {
      const image = keyAt(take.channels[otherSide(channel)], frame)
      if (image !== undefined)
        return withKey(keys, patch(keyAt(keys, frame) ?? image, mirrorKey(channel, image)))
      return keyAt(keys, frame) === undefined ? keys : keys.filter((key) => key.frame !== frame)
    })
  })
}

/** The mirror image of an asked pose in the plane x = 0. */
export const mirrorControls = (controls: Controls): Controls =>
  Object.fromEntries(
    CHANNELS.map((channel) => [channel, flipped(channel, controls[otherSide(channel)])]),
  ) as Record<ChannelId, number>

/** The same channel on the other side: 'legL.knee.x' ↔ 'legR.knee.x'; trunk and head are their own. */
export const otherSide = (channel: ChannelId): ChannelId =>
  channel.startsWith('leg') || channel.startsWith('arm')
    ? (`${channel.slice(0, 3)}${channel[3] === 'L' ? 'R' : 'L'}${channel.slice(4)}` as ChannelId)
    : channel

/** Sideways places, turns and lists change sign; heights, depths, tilts, bends are the same on both sides. */
const FLIPS = new Set(CHANNELS.filter((channel) => /\.(x|turn|list)$/.test(channel)))

const flipped = (channel: ChannelId, value: number): number => (FLIPS.has(channel) ? negative(value) : value)

/** The negative, but never −0: a zero stays the zero it was. */
const negative = (value: number): number => (value === 0 ? value : -value)

const mirrorVector = ([x, y, z]: Vec3): Vec3 => [negative(x), y, z]

const mirrorKey = (channel: ChannelId, key: Key): Key => ({ ...key, value: flipped(channel, key.value) })

const swapSide = <T extends ContactPart | LimbId>(id: T): T =>
  `${id.slice(0, -1)}${id.endsWith('L') ? 'R' : 'L'}` as T

function mayExchange(take: Take, channel: ChannelId, other: ChannelId, frame: number): boolean {
  const [a, b] = [take.channels[channel], take.channels[other]]
  const [inA, inB] = [keyAt(a, frame) !== undefined, keyAt(b, frame) !== undefined]
  if (inA === inB) return inA
  const [giver, taker] = inA ? [a, b] : [b, a]
  return giver.length > 1 && taker.length < LIMITS.keysPerChannel
}

function mirrorTake(take: Take): Take {
  const channels = Object.fromEntries(
    CHANNELS.map((channel) => [
      channel,
      take.channels[otherSide(channel)].map((key) => mirrorKey(channel, key)),
    ]),
  ) as Record<ChannelId, Key[]>
  return {
    ...take,
    lags: mirrorLags(take.lags),
    channels,
    contacts: take.contacts.map(mirrorContact),
    arcs: take.arcs.map(mirrorArc),
    loads: take.loads.map(mirrorLoad),
    mover: { ...take.mover, limb: swapSide(take.mover.limb) },
  }
}

/** The heading is about the normal, so in the mirror it turns the other way whatever the normal is. */
const mirrorContact = (span: ContactSpan): ContactSpan => ({
  ...span,
  part: swapSide(span.part),
  position: mirrorVector(span.position),
  heading: negative(span.heading),
  normal: mirrorVector(span.normal),
})

const mirrorArc = (arc: Arc): Arc => ({ ...arc, limb: swapSide(arc.limb), side: negative(arc.side) })

const mirrorLags = (lags: Take['lags']): Take['lags'] =>
  Object.fromEntries(
    LAG_PARTS.map((part) => [part, lags[part === 'chest' || part === 'head' ? part : swapSide(part)]]),
  ) as Record<LagPart, number>

const mirrorCamera = (camera: Camera): Camera => ({
  ...camera,
  position: mirrorVector(camera.position),
  aim: mirrorVector(camera.aim),
})

const mirrorBox = (box: Box): Box => ({
  ...box,
  position: mirrorVector(box.position),
  turn: negative(box.turn),
})

const OTHER_HAND: Partial<Record<LoadPlace, LoadPlace>> = { handL: 'handR', handR: 'handL' }

const mirrorLoad = (load: CarriedLoad): CarriedLoad => ({
  ...load,
  on: OTHER_HAND[load.on] ?? load.on,
  offset: mirrorVector(load.offset),
})
