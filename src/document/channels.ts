/**
 * The controls of a pose. Each has a channel of keys of its own; a key pose is a frame where all of
 * them are keyed, a breakdown one where some are.
 *
 * Places are in the world's frame, in metres; angles in radians. The pelvis's angles are to the world,
 * the chest's to the pelvis, the head's to the chest, each turn · list · tilt.
 */
export const CHANNELS = [
  'pelvis.x',
  'pelvis.y',
  'pelvis.z',
  'pelvis.turn',
  'pelvis.list',
  'pelvis.tilt',
  'chest.turn',
  'chest.list',
  'chest.tilt',
  'head.turn',
  'head.list',
  'head.tilt',
  ...sides('leg', ['knee.x', 'knee.y', 'knee.z', 'ankle.x', 'ankle.y', 'ankle.z', 'pitch', 'turn']),
  ...sides('arm', ['hand.x', 'hand.y', 'hand.z', 'elbow', 'wrist']),
] as const

type Axis = 'x' | 'y' | 'z'
type AngleName = 'turn' | 'list' | 'tilt'
type SideName = 'L' | 'R'
/**
 * - `leg?.knee`: where the knee is asked to be; with the foot down only which way it bends.
 * - `leg?.ankle`: where the ankle is asked to be while the foot is off.
 * - `leg?.pitch`, `leg?.turn`: the free foot, toes down > 0, toes to the body's left > 0.
 * - `arm?.hand`: where the knuckles (fist) or the palm's middle is asked to be.
 * - `arm?.elbow`: swings the elbow about the line from shoulder to hand, outward > 0.
 * - `arm?.wrist`: bends the free hand toward the palm > 0.
 */
export type ChannelId =
  | `pelvis.${Axis | AngleName}`
  | `chest.${AngleName}`
  | `head.${AngleName}`
  | `leg${SideName}.${`knee.${Axis}` | `ankle.${Axis}` | 'pitch' | 'turn'}`
  | `arm${SideName}.${`hand.${Axis}` | 'elbow' | 'wrist'}`

/** One value per channel: an asked pose. */
export type Controls = Readonly<Record<ChannelId, number>>

/**
 * A key. `in` and `out` are how much the change slows into the key and out of it, 0 … 1: at 0 it passes
 * at the speed its neighbours suggest, at 1 it comes to rest.
 */
export interface Key {
  readonly frame: number
  readonly value: number
  readonly in: number
  readonly out: number
}

export const isAngle = (channel: ChannelId): boolean => !/\.[xyz]$/.test(channel)

function sides<P extends string, N extends string>(prefix: P, names: readonly N[]) {
  return (['L', 'R'] as const).flatMap((side) => names.map((name) => `${prefix}${side}.${name}` as const))
}
