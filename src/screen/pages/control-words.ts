import { type ChannelId, isAngle } from '../../document/channels'

/** What a control is called beside its field, with the way that counts up: 'forward', 'turn to his left'. */
export function controlLabel(channel: ChannelId): string {
  const name = channel.split('.').slice(1).join('.')
  const last = channel.split('.').at(-1) as string
  return LABELS[name] ?? LABELS[last] ?? name
}

const LABELS: Readonly<Record<string, string>> = {
  x: 'to his left',
  y: 'height',
  z: 'forward',
  'knee.x': 'knee, left',
  'knee.y': 'knee height',
  'knee.z': 'knee forward',
  'ankle.x': 'ankle, left',
  'ankle.y': 'ankle height',
  'ankle.z': 'ankle forward',
  turn: 'turn to his left',
  list: 'list, left up',
  tilt: 'tilt forward',
  pitch: 'pitch, toes down',
  elbow: 'swing outward',
  wrist: 'wrist to palm',
}

export const kindOf = (channel: ChannelId): 'angle' | 'length' => (isAngle(channel) ? 'angle' : 'length')
