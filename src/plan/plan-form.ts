import { BODY_LIMITS, type BodySpec, SHAPES } from '../body/spec'
import { CHANNELS, type ChannelId, isAngle, type Key } from '../document/channels'
import { CONTACT_PARTS, type ContactKind, type ContactSpan, KINDS_OF, LIMBS } from '../document/contacts'
import { LIMITS } from '../document/limits'
import {
  type Box,
  type Camera,
  type CarriedLoad,
  type FrameNote,
  type Ground,
  type Mover,
  PHASES,
  type Phase,
  type Plan,
  type Rate,
  type Scene,
  type Stiffness,
  type Take,
} from '../document/plan'
import {
  type Accent,
  type Arc,
  EXPOSURES,
  LAG_PARTS,
  type Manner,
  type SetAside,
  STYLES,
} from '../document/take'
import {
  boolean,
  choice,
  type Form,
  id,
  line,
  lines,
  list,
  nullable,
  number,
  object,
  record,
  some,
  vector,
  whole,
} from './form'

const frame = whole([0, LIMITS.frames[1] - 1], '')

const key = (channel: ChannelId): Form<Key> =>
  object(
    {
      frame,
      value: isAngle(channel) ? number(LIMITS.angle, 'rad') : number(LIMITS.place, 'm'),
      in: number(LIMITS.ease, ''),
      out: number(LIMITS.ease, ''),
    },
    'inline',
  )

const CONTACT_KINDS: readonly ContactKind[] = [...KINDS_OF.knee, ...KINDS_OF.foot, ...KINDS_OF.hand]

export const CONTACT_FORM: Form<ContactSpan> = object(
  {
    id,
    part: choice(CONTACT_PARTS),
    kind: choice(CONTACT_KINDS),
    position: vector(LIMITS.place, 'm'),
    heading: number(LIMITS.angle, 'rad'),
    normal: vector([-1.001, 1.001], ''),
    on: id,
    from: frame,
    to: frame,
    state: choice(['planted', 'sliding', 'rolling']),
  },
  'inline',
)

export const LOAD_FORM: Form<CarriedLoad> = object(
  {
    id,
    name: line(LIMITS.name),
    mass: number(LIMITS.loadMass, 'kg'),
    on: choice(['handL', 'handR', 'hands', 'back', 'head', 'hips']),
    offset: vector(LIMITS.place, 'm'),
    from: frame,
    to: frame,
  },
  'inline',
)

export const PHASE_FORM: Form<Phase> = object({ id, name: choice(PHASES), from: frame, to: frame }, 'inline')

export const NOTE_FORM: Form<FrameNote> = object({ id, frame, text: lines(LIMITS.note) }, 'inline')

export const MOVER_FORM: Form<Mover> = object({ limb: choice(LIMBS), toesStay: boolean }, 'inline')

export const ARC_FORM: Form<Arc> = object(
  {
    id,
    limb: choice(LIMBS),
    from: frame,
    to: frame,
    height: number(LIMITS.bow, 'm'),
    side: number(LIMITS.bow, 'm'),
  },
  'inline',
)

export const ACCENT_FORM: Form<Accent> = object({ id, frame, name: line(LIMITS.name) }, 'inline')

export const SET_ASIDE_FORM: Form<SetAside> = object(
  { id, rule: id, from: frame, reason: lines(LIMITS.note) },
  'inline',
)

const manner = {
  exposure: choice(EXPOSURES),
  style: choice(STYLES),
  push: number(LIMITS.push, ''),
  pace: number(LIMITS.pace, ''),
  lags: record(LAG_PARTS, () => number(LIMITS.lag, 'frames'), 'inline'),
}
/** What is set for a take as a whole. */
export const MANNER_FORM: Form<WholeManner> = object(manner)
export type WholeManner = Pick<Manner, keyof typeof manner>

const take: Form<Take> = object({
  id,
  name: line(LIMITS.name),
  length: whole(LIMITS.frames, 'frames'),
  ...manner,
  channels: record(CHANNELS, (channel) => list(key(channel), [1, LIMITS.keysPerChannel], 'keys')),
  contacts: list(CONTACT_FORM, [0, LIMITS.contacts], 'contact spans'),
  arcs: list(ARC_FORM, [0, LIMITS.arcs], 'arcs'),
  loads: list(LOAD_FORM, [0, LIMITS.loads], 'loads'),
  phases: list(PHASE_FORM, [0, LIMITS.phases], 'phases'),
  accents: list(ACCENT_FORM, [0, LIMITS.accents], 'accents'),
  notes: list(NOTE_FORM, [0, LIMITS.notes], 'notes'),
  setAside: list(SET_ASIDE_FORM, [0, LIMITS.setAside], 'notes set aside'),
  mover: MOVER_FORM,
})

const grip = choice(['slippery', 'normal', 'rough'])

export const BOX_FORM: Form<Box> = object(
  {
    id,
    name: line(LIMITS.name),
    position: vector(LIMITS.place, 'm'),
    size: vector(LIMITS.boxSize, 'm'),
    turn: number(LIMITS.angle, 'rad'),
    grip,
  },
  'inline',
)

export const GROUND_FORM: Form<Ground> = object({ grip, boxes: list(BOX_FORM, [0, LIMITS.boxes], 'boxes') })

const widest = BODY_LIMITS.width[1] * BODY_LIMITS.stature[1]
const narrowest = BODY_LIMITS.width[0] * BODY_LIMITS.stature[0]
const factors = record(SHAPES, () => number(BODY_LIMITS.factor, 'times'))

export const BODY_FORM: Form<BodySpec> = object({
  stature: number(BODY_LIMITS.stature, 'm'),
  mass: number(BODY_LIMITS.mass, 'kg'),
  blend: number(BODY_LIMITS.blend, ''),
  hipWidth: number([narrowest, widest], 'm'),
  shoulderWidth: number([narrowest, widest], 'm'),
  length: factors,
  bulk: factors,
})

const rate: Form<Rate> = object(
  { num: whole(LIMITS.rateNumerator, ''), den: whole(LIMITS.rateDenominator, '') },
  'inline',
)

const scene: Form<Scene> = object(
  {
    unit: line(LIMITS.unit),
    unitsPerMetre: number(LIMITS.unitsPerMetre, 'units'),
    root: vector(LIMITS.place, 'm'),
  },
  'inline',
)

export const CAMERA_FORM: Form<Camera | null> = nullable(
  object(
    {
      position: vector(LIMITS.place, 'm'),
      aim: vector(LIMITS.place, 'm'),
      lens: number(LIMITS.lens, 'mm'),
    },
    'inline',
  ),
)

export const STIFFNESS_FORM: Form<Stiffness> = some(CONTACT_KINDS, number(LIMITS.stiffness, ''))

const header = {
  title: line(LIMITS.title),
  character: line(LIMITS.title),
  rate,
  firstFrame: whole(LIMITS.firstFrame, ''),
  gravity: number(LIMITS.gravity, 'm/s²'),
  scene,
}
/** What stands at the head of the sheet. */
export const HEADER_FORM: Form<Header> = object(header)
export type Header = Pick<Plan, keyof typeof header>

/** Version 1 of the plan file. */
export const PLAN_FORM: Form<Plan> = object({
  format: choice(['weighbridge-plan']),
  version: choice([1]),
  title: header.title,
  character: header.character,
  rate,
  firstFrame: header.firstFrame,
  gravity: header.gravity,
  angles: choice(['turn-list-tilt']),
  scene,
  camera: CAMERA_FORM,
  body: BODY_FORM,
  stiffness: STIFFNESS_FORM,
  ground: GROUND_FORM,
  takes: list(take, [1, LIMITS.takes], 'takes'),
})
