import { describe, expect, it } from 'vitest'
import { dropsFrames, rateText, secondsAt, timeCode } from '../../src/sheet/frames'

const film = { num: 24, den: 1 }
const pulledDown = { num: 24_000, den: 1001 }
const pal = { num: 25, den: 1 }
const ntsc = { num: 30_000, den: 1001 }
const fast = { num: 60_000, den: 1001 }

describe('time code', () => {
  // SMPTE ST 12-1 is named from memory; the labels themselves were read or derived from published examples of it.
  it.each([
    [film, 0, '00:00:00:00'],
    [film, 23, '00:00:00:23'],
    [film, 1440, '00:01:00:00'],
    [film, 86_400, '01:00:00:00'],
    [pulledDown, 1440, '00:01:00:00'],
    [pal, 1500, '00:01:00:00'],
    [ntsc, 1799, '00:00:59;29'],
    [ntsc, 1800, '00:01:00;02'],
    [ntsc, 17_982, '00:10:00;00'],
    [ntsc, 107_892, '01:00:00;00'],
    [ntsc, 1_078_920, '10:00:00;00'],
    // Derived: twice the frames of 29.97, so that labels ;00 to ;03 are skipped.
    [fast, 3599, '00:00:59;59'],
    [fast, 3600, '00:01:00;04'],
    [fast, 35_964, '00:10:00;00'],
  ])('at %o frame %i reads %s', (rate, frame, code) => {
    expect(timeCode(frame, rate)).toBe(code)
  })

  it('at 29.97 never shows ;00 or ;01 of a minute but each tenth, and shows every other label once', () => {
    const seen = new Set<string>()
    for (let frame = 0; frame < 2 * 17_982; frame++) {
      const code = timeCode(frame, ntsc) as string
      const [, , minutes, seconds, frames] = /(\d\d):(\d\d):(\d\d);(\d\d)/.exec(code) as RegExpExecArray
      expect(Number(minutes) % 10 !== 0 && seconds === '00' && Number(frames) < 2).toBe(false)
      seen.add(code)
    }
    expect(seen.size).toBe(2 * 17_982)
    expect(timeCode(2 * 17_982, ntsc)).toBe('00:20:00;00')
  })

  it('stays within two frames of the clock at 29.97, where a code without drops runs away', () => {
    const clock = (code: string | null) => {
      const [h = 0, m = 0, s = 0, f = 0] = (code ?? '').split(/[:;]/).map(Number)
      return 3600 * h + 60 * m + s + f / 30
    }
    for (const frame of [1000, 17_981, 50_000, 107_892, 1_000_000]) {
      expect(Math.abs(clock(timeCode(frame, ntsc)) - secondsAt(frame, ntsc))).toBeLessThan(0.1)
    }
    expect(Math.abs(clock(timeCode(107_892, ntsc, false)) - secondsAt(107_892, ntsc))).toBeGreaterThan(3)
  })

  it('is missing at rates without one', () => {
    expect(timeCode(10, { num: 25, den: 2 })).toBeNull()
    expect(timeCode(-1, film)).toBeNull()
    expect(timeCode(0.5, film)).toBeNull()
  })

  it('drops at 29.97 and 59.94 alone', () => {
    expect([film, pulledDown, pal, ntsc, fast].map(dropsFrames)).toEqual([false, false, false, true, true])
  })
})

describe('rates and seconds', () => {
  it('names rates as the trade does', () => {
    expect([film, pulledDown, ntsc, fast, { num: 25, den: 2 }].map(rateText)).toEqual([
      '24',
      '23.976',
      '29.97',
      '59.94',
      '12.5',
    ])
  })

  it('counts seconds from the first frame', () => {
    expect(secondsAt(36, film)).toBe(1.5)
    expect(secondsAt(24_000, pulledDown)).toBe(1001)
  })
})
