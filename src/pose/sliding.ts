import type { ChannelId } from '../document/channels'
import type { ContactPart, ContactSpan } from '../document/contacts'
import { limbOf, partKind } from '../document/contacts'
import type { Take } from '../document/plan'
import { norm, reject, scale, type Vec3 } from '../space/vec'
import { channelAt } from './curve'

/**
 * A sliding contact as it is at a frame: its pad has gone along its surface as far as the part's own keys have
 * since the span began. Keys that stay where they are leave it standing.
 * @param frame inside the span, fractions allowed
 * @returns the span with its position at that frame, m; the very same span where it has not moved
 */
export function slidTo(take: Pick<Take, 'channels'>, span: ContactSpan, frame: number): ContactSpan {
  const gone = slideChannels(span.part).map((channel) => {
    const keys = take.channels[channel]
    return channelAt(keys, frame) - channelAt(keys, span.from)
  }) as unknown as Vec3
  const along = reject(gone, scale(span.normal, 1 / norm(span.normal)))
  if (along.every((way) => way === 0)) return span
  const [x, y, z] = span.position
  return { ...span, position: [x + along[0], y + along[1], z + along[2]] }
}

/** The channels that ask for a part's place: x, y, z. */
export const slideChannels = (part: ContactPart): readonly ChannelId[] =>
  (['x', 'y', 'z'] as const).map((axis) => `${limbOf(part)}.${PLACES[partKind(part)]}.${axis}` as ChannelId)

const PLACES = { knee: 'knee', foot: 'ankle', hand: 'hand' } as const
