import { describe, expect, it } from 'vitest'
import { CHANNELS, type ChannelId, type Key } from '../../src/document/channels'
import { channelsOf, easeForTick, ticksOf } from '../../src/pose/chart'

const still = Object.fromEntries(
  CHANNELS.map((id) => [id, [{ frame: 0, value: 0, in: 1, out: 1 }]]),
) as unknown as Record<ChannelId, readonly Key[]>
const key = (frame: number, value: number, ease = 1): Key => ({ frame, value, in: ease, out: ease })
/** The pelvis goes 1 m in 10 frames and 1 m in 10 more, passing the middle key. */
const passing = (ease: number) => ({ ...still, 'pelvis.x': [key(0, 0), key(10, 1, ease), key(20, 2)] })
const pelvis = channelsOf('pelvis', CHANNELS)
const span = { from: 0, to: 10 }

describe('the ticks of a timing chart', () => {
  it('go from 0 to 1; eased at both ends they lie close at both ends, the smoothest step between', () => {
    const ticks = ticksOf(passing(1), pelvis, span, 2) as number[]
    expect(ticks).toHaveLength(11)
    for (const [f, tick] of ticks.entries()) {
      const t = f / 10
      expect(tick).toBeCloseTo(t ** 3 * (10 - 15 * t + 6 * t * t), 12)
    }
  })

  it('without an ease the last steps into the key are wider', () => {
    const [eased, plain] = [1, 0].map((ease) => ticksOf(passing(ease), pelvis, span, 2) as number[]) as [
      number[],
      number[],
    ]
    expect(1 - (plain[9] as number)).toBeGreaterThan(3 * (1 - (eased[9] as number)))
  })

  it('of several channels they are the share of the whole change; nothing that changes has none', () => {
    const both = { ...passing(1), 'pelvis.list': [key(0, 0), key(10, 0.2), key(20, 0)] }
    const ticks = ticksOf(both, pelvis, span, 2) as number[]
    expect(ticks[5]).toBeCloseTo(0.5, 12)
    expect(ticksOf(passing(1), channelsOf('head', CHANNELS), span, 2)).toBeNull()
  })

  it('a dragged tick gives the ease that brings it there', () => {
    for (const ease of [0, 0.35, 0.8]) {
      const wanted = ticksOf(passing(ease), pelvis, span, 2)?.[9] as number
      const take = {
        channels: { ...passing(1), 'pelvis.x': [key(0, 0), { ...key(10, 1, 0), in: 1 }, key(20, 2)] },
      }
      const found = easeForTick(take, pelvis, span, 10, 9, wanted, 2)
      const there = ticksOf(
        { ...take.channels, 'pelvis.x': [key(0, 0), { ...key(10, 1, 0), in: found }, key(20, 2)] },
        pelvis,
        span,
        2,
      )?.[9] as number
      expect(Math.abs(there - wanted)).toBeLessThan(0.012)
    }
  })
})
