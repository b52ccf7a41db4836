import { BODY_LIMITS, type BodySpec } from '../body/spec'
import { CHANNELS, type Key } from '../document/channels'
import { type ContactSpan, KINDS_OF, partKind } from '../document/contacts'
import { LIMITS } from '../document/limits'
import type { Plan, Rate, Take } from '../document/plan'
import { norm } from '../space/vec'
import type { Faults, Place } from './faults'
import { shown } from './faults'

/**
 * Adds the faults in how a plan's parts fit together: what its form alone cannot say.
 * @param plan a plan whose form is right
 */
export function checkPlan(plan: Plan, faults: Faults): void {
  checkRate(plan.rate, faults)
  checkWidths(plan.body, faults)
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
  for (const name of ['contacts', 'loads', 'phases'] as const) {
    const list = within(place, name)
    checkIds(take[name], list, faults)
    take[name].forEach((span, i) => {
      checkSpan(span, take.length, within(list, i), faults)
    })
  }
  const notes = within(place, 'notes')
  checkIds(take.notes, notes, faults)
  take.notes.forEach((note, i) => {
    checkFrame(note.frame, take.length, within(within(notes, i), 'frame'), faults)
  })
  checkContacts(take.contacts, stands, within(place, 'contacts'), faults)
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

function checkSpan(
  { from, to }: { readonly from: number; readonly to: number },
  length: number,
  place: Place,
  faults: Faults,
): void {
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
  checkOverlaps(contacts, list, faults)
}

function checkOverlaps(contacts: readonly ContactSpan[], list: Place, faults: Faults): void {
  const inOrder = contacts.map((span, index) => ({ span, index })).sort((a, b) => a.span.from - b.span.from)
  const last = new Map<string, ContactSpan>()
  for (const { span, index } of inOrder) {
    const before = last.get(span.part)
    if (before !== undefined && span.from <= before.to)
      faults.add(
        'contacts-overlap',
        within(list, index),
        `${span.part} touches from ${span.from} to ${span.to} and from ${before.from} to ${before.to}`,
        'let one end before the other begins',
      )
    if (before === undefined || span.to > before.to) last.set(span.part, span)
  }
}
