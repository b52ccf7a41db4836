import { describe, expect, test } from 'vitest'
import { BUILDS, resized } from '../../src/body/builds'
import { makeBody } from '../../src/body/model'
import type { BodySpec } from '../../src/body/spec'
import { FLAT } from '../../src/contact/ground'
import { CHANNELS, type ChannelId, type Key } from '../../src/document/channels'
import type { Take } from '../../src/document/plan'
import { PLAIN_MANNER } from '../../src/document/take'
import { contactsAt, makeMotion } from '../../src/pose/between'
import { refitTake } from '../../src/pose/refit'
import { makeStance, STANCES, type StanceId } from '../../src/pose/stances'
import { distance } from '../../src/space/vec'

const same = (spec: BodySpec, stature: number) => makeBody(resized(spec, stature))

function takeOf(stance: StanceId, spec: BodySpec): Take {
  const made = makeStance(stance, makeBody(spec), FLAT)
  const channels = Object.fromEntries(
    CHANNELS.map((id) => [id, [{ frame: 0, value: made.controls[id], in: 0.5, out: 0.5 }]]),
  ) as unknown as Record<ChannelId, readonly Key[]>
  const contacts = made.contacts.map((span) => ({ ...span, to: 9 }))
  return {
    id: 'take-1',
    name: '',
    ...PLAIN_MANNER,
    length: 10,
    channels,
    contacts,
    loads: [],
    phases: [],
    notes: [],
    mover: { limb: 'legL', toesStay: false },
  }
}

describe('a stance fitted to another body', () => {
  test('is met by that body, whatever the two builds: every pad bears and no limb is named', () => {
    for (const from of BUILDS)
      for (const to of BUILDS)
        for (const { id } of STANCES) {
          const before = makeBody(from.spec)
          const after = same(to.spec, from.spec.stature)
          const take = refitTake(takeOf(id, from.spec), before, after)
          const pose = makeMotion(after, take).poseAt(0)
          expect(pose.pads.length, `${from.id} → ${to.id} ${id}`).toBe(take.contacts.length)
          const stops = pose.limits.filter(({ code, limb }) => code !== 'flesh' && !limb.startsWith('arm'))
          expect(
            stops.map(({ text }) => text),
            `${from.id} → ${to.id} ${id}`,
          ).toEqual([])
        }
  })

  test('is the very same numbers where the body is the same', () => {
    const { spec } = BUILDS[2] as (typeof BUILDS)[number]
    for (const { id } of STANCES) {
      const take = takeOf(id, spec)
      const fitted = refitTake(take, makeBody(spec), makeBody(spec))
      for (const [i, span] of fitted.contacts.entries())
        expect(distance(span.position, (take.contacts[i] as typeof span).position)).toBeLessThan(1e-12)
      for (const channel of CHANNELS)
        expect(fitted.channels[channel][0]?.value).toBeCloseTo(take.channels[channel][0]?.value as number, 9)
      expect(contactsAt(fitted, 3)).toHaveLength(take.contacts.length)
    }
  })
})
