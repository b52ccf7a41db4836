import type { BodyModel, Side } from '../body/model'
import { SIDES } from '../body/model'
import type { ChannelId } from '../document/channels'
import type { ContactPart, ContactSpan, LimbId } from '../document/contacts'
import { apply } from '../space/rotation'
import { add, type Vec3 } from '../space/vec'
import type { ReachedPose } from './types'

/**
 * The places of a pose that can be taken hold of, from the pelvis up and then limb by limb, his left first.
 * World frame, m. What a handle does depends on what is planted.
 * @param contacts those that hold in this pose
 */
export function handlesOf(body: BodyModel, pose: ReachedPose, contacts: readonly ContactSpan[]): Handle[] {
  const planted = (part: ContactPart) => contacts.find((contact) => contact.part === part)
  const trunk = TRUNK.map(
    ([id, name, does]): Handle => ({
      id,
      name,
      does,
      at: handlePlace(body, pose, id),
      limb: id === 'head' || id === 'brow' ? 'head' : 'trunk',
      part: null,
      channels: CHANNELS_OF[id],
    }),
  )
  const limbs = SIDES.flatMap((side) => {
    const [knee, foot, hand] = [planted(`knee${side}`), planted(`foot${side}`), planted(`hand${side}`)]
    const make = (id: LimbHandleId, name: string, does: string, part: ContactPart | null): Handle => ({
      id,
      name: `${WORD[side]} ${name}`,
      does,
      at: handlePlace(body, pose, id),
      limb: name === 'hand' || name === 'elbow' ? `arm${side}` : `leg${side}`,
      part,
      channels: CHANNELS_OF[id],
    })
    const handles = [
      make(`knee${side}`, 'knee', kneeDoes(knee, foot), `knee${side}`),
      make(`foot${side}`, 'foot', footDoes(knee, foot), `foot${side}`),
      make(
        `hand${side}`,
        'hand',
        hand ? `slides the ${hand.kind} over ${surface(hand)}` : 'places the hand',
        `hand${side}`,
      ),
      make(`elbow${side}`, 'elbow', 'swings the elbow about the line from shoulder to hand', null),
    ]
    // A kneeling foot lies along its shin: its toes have no direction of their own.
    if (!(knee && foot))
      handles.splice(
        2,
        0,
        make(
          `toe${side}`,
          'toes',
          foot ? 'turns the foot where it stands' : 'pitches and turns the foot',
          null,
        ),
      )
    if (!knee && (foot?.kind === 'ball' || foot?.kind === 'toes'))
      handles.splice(3, 0, make(`heel${side}`, 'heel', 'rolls the foot over its ball', null))
    return handles
  })
  return [...trunk, ...limbs]
}

export type LimbHandleId = `${'knee' | 'foot' | 'toe' | 'heel' | 'hand' | 'elbow'}${Side}`
export type TrunkHandleId = 'pelvis' | `${'hip' | 'shoulder'}${Side}` | 'waist' | 'chest' | 'head' | 'brow'
export type HandleId = TrunkHandleId | LimbHandleId

export interface Handle {
  readonly id: HandleId
  /** In lower case and his own sides: 'left knee'. */
  readonly name: string
  /** What dragging it does, after the name: 'left knee: slides the kneecap over the ground'. */
  readonly does: string
  readonly at: Vec3
  readonly limb: LimbId | 'trunk' | 'head'
  /** What can be planted, rolled or freed here. */
  readonly part: ContactPart | null
  /** The controls it changes, or that place it: what can be typed while it is chosen. */
  readonly channels: readonly ChannelId[]
}

/** Where a handle is in a pose, world, m. */
export function handlePlace(body: BodyModel, { joints, segments, pads }: ReachedPose, id: HandleId): Vec3 {
  switch (id) {
    case 'pelvis':
      return joints.midHip
    case 'chest':
      return joints.neck
    case 'head':
      return joints.crown
    case 'brow':
      return add(segments.head.origin, apply(segments.head.rotation, browOnHead(body)))
    case 'footL':
    case 'footR': {
      // A kneeling foot is held where it bears: its ankle can only go round the knee.
      const pad = pads.find(({ part, kind }) => part === id && (kind === 'toes' || kind === 'instep'))
      return pad?.centre ?? joints[`ankle${id[4] as Side}`]
    }
    case 'handL':
    case 'handR':
      return joints[`knuckle${id[4] as Side}`]
    default:
      return joints[id]
  }
}

/** The bridge of the nose in the head's frame, m: half way up, twice the spread of the mass ahead. */
export const browOnHead = (body: BodyModel): Vec3 => [
  0,
  body.lengths.head * 0.5,
  2.2 * body.segments.head.spread[2],
]

const TRUNK: readonly (readonly [TrunkHandleId, string, string])[] = [
  ['pelvis', 'pelvis', 'moves the pelvis; what is planted stays'],
  ['hipL', 'left hip', 'turns and lists the pelvis'],
  ['hipR', 'right hip', 'turns and lists the pelvis'],
  ['waist', 'waist', 'tilts and lists the pelvis'],
  ['chest', 'chest', 'bends the chest forward and sideways'],
  ['shoulderL', 'left shoulder', 'turns and lists the chest'],
  ['shoulderR', 'right shoulder', 'turns and lists the chest'],
  ['head', 'head', 'tilts the head'],
  ['brow', 'brow', 'turns the head and nods it'],
]

const WORD: Readonly<Record<Side, string>> = { L: 'left', R: 'right' }

const surface = (span: ContactSpan) => (span.on === 'ground' ? 'the ground' : 'the block')

function kneeDoes(knee: ContactSpan | undefined, foot: ContactSpan | undefined): string {
  if (knee) return `slides the kneecap over ${surface(knee)}`
  return foot ? 'swings the knee in or out over the planted foot' : 'swings the thigh about the hip'
}

function footDoes(knee: ContactSpan | undefined, foot: ContactSpan | undefined): string {
  if (foot) return `slides the ${foot.kind} over ${surface(foot)}`
  return knee ? 'swings the shin about the planted knee' : 'places the foot'
}

const place = <P extends string>(id: P) => [`${id}.x`, `${id}.y`, `${id}.z`] as const
const angles = (part: 'pelvis' | 'chest' | 'head') =>
  [`${part}.turn`, `${part}.list`, `${part}.tilt`] as const

const limbChannels = <S extends Side>(s: S) =>
  ({
    [`hip${s}`]: ['pelvis.turn', 'pelvis.list'],
    [`shoulder${s}`]: ['chest.turn', 'chest.list'],
    [`knee${s}`]: place(`leg${s}.knee`),
    [`foot${s}`]: [...place(`leg${s}.ankle`), `leg${s}.pitch`, `leg${s}.turn`],
    [`toe${s}`]: [`leg${s}.pitch`, `leg${s}.turn`],
    [`heel${s}`]: [`leg${s}.pitch`],
    [`hand${s}`]: [...place(`arm${s}.hand`), `arm${s}.wrist`],
    [`elbow${s}`]: [`arm${s}.elbow`, `arm${s}.wrist`],
  }) as unknown as Readonly<
    Record<
      `${'hip' | 'shoulder' | 'knee' | 'foot' | 'toe' | 'heel' | 'hand' | 'elbow'}${S}`,
      readonly ChannelId[]
    >
  >

const CHANNELS_OF: Readonly<Record<HandleId, readonly ChannelId[]>> = {
  ...limbChannels('L'),
  ...limbChannels('R'),
  pelvis: [...place('pelvis'), ...angles('pelvis')],
  waist: ['pelvis.tilt', 'pelvis.list'],
  chest: angles('chest'),
  head: angles('head'),
  brow: ['head.turn', 'head.tilt'],
}
