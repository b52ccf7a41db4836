import { BODY_LIMITS, type BodySpec } from '../body/spec'
import { CHANNELS, type Key } from '../document/channels'
import { type ContactSpan, KINDS_OF, partKind } from '../document/contacts'
import { LIMITS } from '../document/limits'
import type { Camera, Plan, Rate, Take } from '../document/plan'
import type { Arc } from '../document/take'
import { distance, norm } from '../space/vec'
import type { Faults, Place } from './faults'
import { shown } from './faults'

/**
 * Adds the faults in how a plan's parts fit together: what its form alone cannot say.
 * @param plan a plan whose form is right
 */
export function checkPlan(plan: Plan, faults: Faults): void {
  checkRate(plan.rate, faults)
  checkWidths(plan.body, faults)
  if (plan.camera !== null) checkCamera(plan.camera, faults)
  const boxes = within(within(undefined, 'ground'), 'boxes')
  checkIds(plan.ground.boxes, boxes, faults)
  plan.ground.boxes.forEach((box, i) => {
    if (box.id === 'ground')
      faults.add('duplicate-id', idOf(boxes, i), '"ground" is the flat ground', 'give the box another id')
  })
  const stands = new Set(['ground', ...plan.ground.boxes.map((box) => box.id)])
  const takes = within(undefined, 'takes')
  checkIds(plan.takes, takes, faults)
  plan.takes.forEach((take, i) => {
    checkTake(take, stands, within(takes, i), faults)
  })
}

/** Lets a width be off its limit by what rounding to 1e-9 m may do to a small body. */
const ROUNDING = 1e-6

const within = (above: Place | undefined, name: string | number): Place => ({ above, name })
const idOf = (list: Place, index: number): Place => within(within(list, index), 'id')

function checkRate({ num, den }: Rate, faults: Faults): void {
  const [least, most] = LIMITS.rate
  const rate = num / den
  if (rate < least || rate > most)
    faults.add(
      'rate-out-of-range',
      within(undefined, 'rate'),
      `it comes to ${Number(rate.toPrecision(6))} frames a second`,
      `write a rate from ${least} to ${most}`,
    )
}

function checkWidths(body: BodySpec, faults: Faults): void {
  const least = BODY_LIMITS.width[0] * body.stature
  const most = BODY_LIMITS.width[1] * body.stature
  for (const name of ['hipWidth', 'shoulderWidth'] as const)
    if (body[name] < least * (1 - ROUNDING) || body[name] > most * (1 + ROUNDING))
      faults.add(
        'width-out-of-range',
        within(within(undefined, 'body'), name),
        `it is ${body[name]} m on a body of ${body.stature} m`,
        `write ${Number(least.toPrecision(6))} to ${Number(most.toPrecision(6))} m`,
      )
}

function checkCamera(camera: Camera, faults: Faults): void {
  if (distance(camera.position, camera.aim) < LIMITS.aimAway)
    faults.add(
      'camera-at-aim',
      within(within(undefined, 'camera'), 'aim'),
      'the camera stands there',
      'aim it at another place, or write null for no camera',
    )
}

function checkIds(things: readonly { readonly id: string }[], list: Place, faults: Faults): void {
  const seen = new Set<string>()
  things.forEach(({ id }, i) => {
    if (seen.has(id))
      faults.add('duplicate-id', idOf(list, i), `${shown(id)} is there already`, 'give each an id of its own')
    seen.add(id)
  })
}

function checkTake(take: Take, stands: ReadonlySet<string>, place: Place, faults: Faults): void {
  const channels = within(place, 'channels')
  for (const channel of CHANNELS)
    checkKeys(take.channels[channel], take.length, within(channels, channel), faults)
  for (const name of ['contacts', 'arcs', 'loads', 'phases'] as const) {
    const list = within(place, name)
    checkIds(take[name], list, faults)
    take[name].forEach((span, i) => {
      checkSpan(span, take.length, within(list, i), faults)
    })
  }
  for (const name of ['accents', 'notes'] as const)
    checkMoments(take[name], 'frame', take.length, within(place, name), faults)
  checkMoments(take.setAside, 'from', take.length, within(place, 'setAside'), faults)
  checkContacts(take.contacts, stands, within(place, 'contacts'), faults)
  checkArcs(take.arcs, within(place, 'arcs'), faults)
}

/** @param name the field that holds the frame */
function checkMoments<N extends 'frame' | 'from'>(
  moments: readonly (Readonly<Record<N, number>> & { readonly id: string })[],
  name: N,
  length: number,
  list: Place,
  faults: Faults,
): void {
  checkIds(moments, list, faults)
  moments.forEach((moment, i) => {
    checkFrame(moment[name], length, within(within(list, i), name), faults)
  })
}

function checkFrame(frame: number, length: number, place: Place, faults: Faults): void {
  if (frame >= length)
    faults.add(
      'outside-take',
      place,
      `frame ${frame} is past the end`,
      `the take has ${length} frames, the last one is ${length - 1}`,
    )
}

function checkKeys(keys: readonly Key[], length: number, place: Place, faults: Faults): void {
  let previous = -1
  keys.forEach(({ frame }, i) => {
    const at = () => within(within(place, i), 'frame')
    if (frame <= previous)
      faults.add(
        'keys-out-of-order',
        at(),
        frame === previous
          ? `frame ${frame} has a key already`
          : `frame ${frame} comes after frame ${previous}`,
        'list the keys from the first frame to the last, each frame once',
      )
    if (frame >= length) checkFrame(frame, length, at(), faults)
    previous = frame
  })
}

interface Span {
  readonly from: number
  readonly to: number
}

function checkSpan({ from, to }: Span, length: number, place: Place, faults: Faults): void {
  if (from > to)
    faults.add(
      'span-reversed',
      within(place, 'to'),
      `it ends at ${to}, before ${from}`,
      'swap the two frames',
    )
  checkFrame(Math.max(from, to), length, within(place, from > to ? 'from' : 'to'), faults)
}

function checkContacts(
  contacts: readonly ContactSpan[],
  stands: ReadonlySet<string>,
  list: Place,
  faults: Faults,
): void {
  contacts.forEach((contact, i) => {
    const place = within(list, i)
    const kinds = KINDS_OF[partKind(contact.part)]
    if (!kinds.includes(contact.kind))
      faults.add(
        'kind-not-allowed',
        within(place, 'kind'),
        `${contact.part} cannot touch with its ${contact.kind}`,
        `write ${kinds.map((kind) => `"${kind}"`).join(' or ')}`,
      )
    if (!stands.has(contact.on))
      faults.add(
        'no-such-box',
        within(place, 'on'),
        `there is no box ${shown(contact.on)}`,
        'write "ground" or the id of a box',
      )
    const length = norm(contact.normal)
    if (length < LIMITS.normal[0] || length > LIMITS.normal[1])
      faults.add(
        'normal-not-unit',
        within(place, 'normal'),
        `its length is ${Number(length.toPrecision(6))}`,
        'make it 1 ([0, 1, 0] is straight up)',
      )
  })
  for (const [index, { part, from, to }, before] of overlaps(
    contacts,
    ({ part }) => part,
    (a, b) => b.from <= a.to,
  ))
    faults.add(
      'contacts-overlap',
      within(list, index),
      `${part} touches from ${from} to ${to} and from ${before.from} to ${before.to}`,
      'let one end before the other begins',
    )
}

function checkArcs(arcs: readonly Arc[], list: Place, faults: Faults): void {
  arcs.forEach(({ from, to }, i) => {
    if (from === to)
      faults.add(
        'span-too-short',
        within(within(list, i), 'to'),
        `the arc begins and ends at ${from}`,
        'let it end a frame later at least',
      )
  })
  for (const [index, { limb, from, to }, before] of overlaps(
    arcs,
    ({ limb }) => limb,
    (a, b) => b.from < a.to,
  ))
    faults.add(
      'arcs-overlap',
      within(list, index),
      `an arc of ${limb} goes from ${from} to ${to} and one from ${before.from} to ${before.to}`,
      'let one end where the other begins, or before',
    )
}

/**
 * Each span that meets one of the same part before it, with its index and that one.
 * @param meets whether a span meets one that begins no earlier
 */
function overlaps<T extends Span>(
  spans: readonly T[],
  partOf: (span: T) => string,
  meets: (span: T, later: T) => boolean,
): [index: number, span: T, before: T][] {
  const inOrder = spans.map((span, index) => ({ span, index })).sort((a, b) => a.span.from - b.span.from)
  const last = new Map<string, T>()
  const found: [number, T, T][] = []
  for (const { span, index } of inOrder) {
    const before = last.get(partOf(span))
    if (before !== undefined && meets(before, span)) found.push([index, span, before])
    if (before === undefined || span.to > before.to) last.set(partOf(span), span)
  }
  return found
}
