import { BUILDS } from '../../src/body/builds'
import { CHANNELS, type ChannelId, type Controls } from '../../src/document/channels'
import type { ContactSpan } from '../../src/document/contacts'
import type { Plan, Take } from '../../src/document/plan'
import { type NewContact, newPlan } from '../../src/plan/new'

/** The same value on every channel. */
export const flat = (value: number): Controls =>
  Object.fromEntries(CHANNELS.map((channel) => [channel, value])) as Record<ChannelId, number>

/** A plan of 24 frames with one key pose at 0. */
export const smallPlan = (contacts: readonly NewContact[] = []): Plan =>
  newPlan({
    title: 'a plan',
    character: 'somebody',
    body: (BUILDS[0] as (typeof BUILDS)[number]).spec,
    controls: flat(0),
    length: 24,
    contacts,
  })

export const firstTake = (plan: Plan): Take => plan.takes[0] as Take

export const knee = (changes: Partial<ContactSpan> = {}): NewContact => ({
  part: 'kneeL',
  kind: 'kneecap',
  position: [0.2, 0, 0.1],
  heading: 0.5,
  normal: [0, 1, 0],
  on: 'ground',
  ...changes,
})

/** The spans of the left knee: id, first and last frame. */
export const kneeSpans = (plan: Plan): [string, number, number][] =>
  firstTake(plan)
    .contacts.filter(({ part }) => part === 'kneeL')
    .map(({ id, from, to }) => [id, from, to])
