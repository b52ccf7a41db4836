import type { ChannelId, Controls } from '../../document/channels'
import { CHANNELS } from '../../document/channels'
import {
  type ContactKind,
  type ContactPart,
  type ContactSpan,
  partKind,
  sideOf,
} from '../../document/contacts'
import type { Plan, Take } from '../../document/plan'
import { addContact, liftPart } from '../../plan/edit/contacts'
import { setControls } from '../../plan/edit/keys'
import { contactsAt } from '../../pose/between'
import { plantPart } from '../../pose/plant'
import type { Desk } from '../desk.svelte'

/** Something a part can do about touching, as a button says it. */
export interface Planting {
  readonly label: string
  readonly hint: string
  run(): void
}

/** What a part can do at the desk's frame: plant in one of its ways, roll to another, or be freed. */
export function plantings(desk: Desk, part: ContactPart): Planting[] {
  const span = spanOf(desk, part)
  const name = `${sideOf(part) === 'L' ? 'left' : 'right'} ${partKind(part)}`
  const kinds = kindsFor(desk, part).filter((kind) => kind !== span?.kind)
  const ways = kinds.map((kind): Planting => {
    const label = `${span ? 'Roll to' : 'Plant'} ${KIND_NAMES[kind]}`
    return {
      label,
      hint: span
        ? `From this frame on it bears on the ${KIND_NAMES[kind]}, where the part is now.`
        : `From this frame on it stays where it is, on what lies below, and carries weight.`,
      run: () => {
        desk.edit(`${label}, ${name}`, (plan) => planted(desk, plan, part, kind))
        desk.say(`${capital(name)}: ${KIND_NAMES[kind]} planted from frame ${label1(desk)} on.`)
      },
    }
  })
  if (span === null) return ways
  const free = (parts: readonly ContactPart[], label: string): Planting => ({
    label,
    hint: 'From this frame on it carries nothing and can be moved.',
    run: () => {
      desk.edit(`${label}, ${name}`, (plan) => parts.reduce((made, one) => freed(desk, made, one), plan))
      desk.say(`${capital(name)} is free from frame ${label1(desk)} on.`)
    },
  })
  const foot = `foot${sideOf(part)}` as ContactPart
  const leg = partKind(part) === 'knee' && spanOf(desk, foot) !== null
  return [...ways, free([part], 'Free it'), ...(leg ? [free([part, foot], 'Free the whole leg')] : [])]
}

const KIND_NAMES: Readonly<Record<ContactKind, string>> = {
  kneecap: 'kneecap',
  toes: 'toes',
  instep: 'instep',
  sole: 'sole',
  ball: 'ball of the foot',
  palm: 'palm',
  fist: 'fist',
}

const spanOf = ({ take, frame }: Desk, part: ContactPart): ContactSpan | null =>
  contactsAt(take, frame).find((span) => span.part === part) ?? null

const label1 = ({ plan, frame }: Desk): number => plan.firstFrame + frame

/** A kneeling leg has toes or an instep down, any other foot its sole or its ball. */
function kindsFor(desk: Desk, part: ContactPart): readonly ContactKind[] {
  if (partKind(part) === 'knee') return ['kneecap']
  if (partKind(part) === 'hand') return ['palm', 'fist']
  return spanOf(desk, `knee${sideOf(part)}`) ? ['toes', 'instep'] : ['sole', 'ball']
}

/** From this frame until what the part does next, or as long as what it does now. */
function planted(
  { body, pose, take, takeId, frame }: Desk,
  plan: Plan,
  part: ContactPart,
  kind: ContactKind,
): Plan {
  const now = take.contacts.find((span) => span.part === part && span.from <= frame && frame <= span.to)
  const where = plantPart(body, plan.ground, pose, part, kind)
  return addContact(plan, takeId, { ...where, from: frame, to: now?.to ?? endOfFree(take, part, frame) })
}

const endOfFree = (take: Take, part: ContactPart, frame: number): number =>
  Math.min(
    take.length,
    ...take.contacts.filter((s) => s.part === part && s.from > frame).map((s) => s.from),
  ) - 1

/** The part stays where its contact held it, until it is moved. */
function freed({ pose, take, takeId, frame }: Desk, plan: Plan, part: ContactPart): Plan {
  const span = take.contacts.find((s) => s.part === part && s.from <= frame && frame <= s.to)
  if (span === undefined) return plan
  const lifted = liftPart(plan, takeId, part, frame, span.to)
  const limb = `${partKind(part) === 'hand' ? 'arm' : 'leg'}${sideOf(part)}.`
  const own = CHANNELS.filter((channel) => channel.startsWith(limb) && !channel.endsWith('.elbow'))
  const values = Object.fromEntries(own.map((channel: ChannelId) => [channel, pose.reached[channel]]))
  return setControls(lifted, takeId, frame, values as Partial<Controls>)
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
