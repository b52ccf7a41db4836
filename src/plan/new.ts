import type { BodySpec } from '../body/spec'
import { CHANNELS, type ChannelId, type Controls, type Key } from '../document/channels'
import type { ContactSpan } from '../document/contacts'
import type { Ground, Mover, Plan, Rate, Scene, Take } from '../document/plan'
import { PLAIN_MANNER } from '../document/take'
import { GRAVITY } from '../space/units'
import { NEW_EASE, NEW_FIRST_FRAME, NEW_LENGTH, NEW_RATE, NEW_SCENE } from './constants'
import { freshId } from './ids'

/**
 * A plan of one take whose only key pose, at frame 0, is the given one.
 *
 * @example newPlan({ title: 'Over the stile', character: 'Ferryman’s child', body, controls, contacts })
 */
export function newPlan(options: NewPlan): Plan {
  const { title, character, body, controls } = options
  return {
    format: 'weighbridge-plan',
    version: 1,
    title,
    character,
    rate: options.rate ?? NEW_RATE,
    firstFrame: options.firstFrame ?? NEW_FIRST_FRAME,
    gravity: options.gravity ?? GRAVITY,
    angles: 'turn-list-tilt',
    scene: options.scene ?? NEW_SCENE,
    camera: null,
    body,
    stiffness: {},
    ground: options.ground ?? { grip: 'normal', boxes: [] },
    takes: [
      newTake({
        id: 'take-1',
        name: options.takeName ?? 'Take 1',
        length: options.length ?? NEW_LENGTH,
        controls,
        contacts: options.contacts ?? [],
        mover: options.mover ?? { limb: 'legL', toesStay: false },
      }),
    ],
  }
}

export interface NewPlan {
  readonly title: string
  readonly character: string
  readonly body: BodySpec
  /** The pose at frame 0; positions in m, angles in rad. */
  readonly controls: Controls
  /** What touches in that pose; planted through the whole take where nothing else is said. */
  readonly contacts?: readonly NewContact[]
  readonly rate?: Rate
  readonly firstFrame?: number
  /** m/s² */
  readonly gravity?: number
  readonly scene?: Scene
  readonly ground?: Ground
  readonly mover?: Mover
  readonly takeName?: string
  /** Frames of the take. */
  readonly length?: number
}

/** A contact before it has an id; its span and state may be left out. */
export type NewContact = Omit<ContactSpan, 'id' | 'from' | 'to' | 'state'> &
  Partial<Pick<ContactSpan, 'from' | 'to' | 'state'>>

/** A take with one key pose at frame 0. */
function newTake(options: {
  readonly id: string
  readonly name: string
  readonly length: number
  readonly controls: Controls
  readonly contacts: readonly NewContact[]
  readonly mover: Mover
}): Take {
  const { id, name, length, controls, mover } = options
  const channels = Object.fromEntries(
    CHANNELS.map((channel) => [channel, [newKey(0, controls[channel])]]),
  ) as Record<ChannelId, Key[]>
  const contacts: ContactSpan[] = []
  for (const contact of options.contacts)
    contacts.push({
      from: 0,
      to: length - 1,
      state: 'planted',
      ...contact,
      id: freshId(contact.part, contacts),
    })
  const { arcs, accents, setAside, ...whole } = PLAIN_MANNER
  return {
    id,
    name,
    length,
    ...whole,
    channels,
    contacts,
    arcs,
    loads: [],
    phases: [],
    accents,
    notes: [],
    setAside,
    mover,
  }
}

/** A key that eases over half of the span on either side. */
export const newKey = (frame: number, value: number): Key => ({ frame, value, in: NEW_EASE, out: NEW_EASE })
