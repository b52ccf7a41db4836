import { describe, expect, it } from 'vitest'
import { bestLeast, type LevelShift } from '../../src/shift/best-least'
import { capturePoint } from '../../src/shift/capture'
import { between, random } from '../../src/space/random'

const shift = (
  one: Partial<LevelShift> & Pick<LevelShift, 'from' | 'to' | 'support' | 'height'>,
): LevelShift => ({
  leading: one.support[1],
  gravity: 9.81,
  ...one,
})

const found = (one: LevelShift) => {
  const least = bestLeast(one)
  if (!least.ok) throw new Error(least.why)
  return least
}

/**
 * Derived for this project from the inverted pendulum and checked there by exact integration: x₀, x₁, half of
 * the support, height; time, whole frames at 24 a second, earliest empty.
 */
describe('least time, p within ±half', () => {
  it.each([
    [0, 0.05, 0.15, 0.6, 0.3135, 8, 0.1714],
    [0, 0.1, 0.15, 0.6, 0.5307, 13, 0.1714],
    [0, 0.14, 0.15, 0.6, 0.9409, 23, 0.1714],
    [-0.1, 0.1, 0.15, 0.6, 0.8719, 21, 0.4431],
    [0, 0.1, 0.15, 0.9, 0.65, 16, 0.2099],
    [0, 0.2, 0.3, 1.2, 0.7505, 19, 0.2424],
  ])('%d → %d m on ±%d m at %d m', (from, to, half, height, seconds, frames, empty) => {
    const least = found(shift({ from, to, support: [-half, half], height }))
    expect(least.seconds).toBeCloseTo(seconds, 4)
    expect(Math.ceil(least.seconds * 24)).toBe(frames)
    expect(least.empty).toBeCloseTo(empty, 4)
  })

  it('a leading pad 60 mm long lets the trailing one be empty sooner (the same)', () => {
    const least = found(shift({ from: 0, to: 0.05, support: [-0.15, 0.15], height: 0.6, leading: 0.09 }))
    expect(least.empty).toBeCloseTo(0.1162, 4)
  })

  it('goes with the root of the size: twice the second row’s lengths take √2 times its time', () => {
    const one = found(shift({ from: 0, to: 0.1, support: [-0.15, 0.15], height: 0.6 }))
    const two = found(shift({ from: 0, to: 0.2, support: [-0.3, 0.3], height: 1.2 }))
    expect(two.seconds / one.seconds).toBeCloseTo(Math.SQRT2, 12)
    expect(two.empty / one.empty).toBeCloseTo(Math.SQRT2, 12)
  })
})

describe('its course', () => {
  const next = random(11)
  const cases = Array.from({ length: 200 }, () => {
    const half = between(next, 0.05, 1)
    const height = between(next, 0.3, 3)
    return shift({
      from: between(next, -0.95, 0.95) * half,
      to: between(next, -0.95, 0.95) * half,
      support: [-half, half],
      height,
    })
  })

  it('pushed off from behind, then caught in front, arrives at rest where it should', () => {
    for (const one of cases) {
      const { off, caught, seconds } = found(one)
      const omega = Math.sqrt(one.gravity / one.height)
      const way = Math.sign(one.to - one.from)
      const edges = way > 0 ? one.support : ([one.support[1], one.support[0]] as const)
      let [x, v] = [one.from, 0]
      for (const [p, time] of [
        [edges[0], off],
        [edges[1], caught],
      ] as const) {
        const [c, s] = [Math.cosh(omega * time), Math.sinh(omega * time)]
        ;[x, v] = [p + (x - p) * c + (v / omega) * s, omega * (x - p) * s + v * c]
      }
      expect(x).toBeCloseTo(one.to, 9)
      expect(v).toBeCloseTo(0, 9)
      expect(off + caught).toBe(seconds)
    }
  })

  it('is the same in the mirror and back again', () => {
    for (const one of cases) {
      const leading = one.to < one.from ? one.support[0] : one.support[1]
      const mirrored = { ...one, from: -one.from, to: -one.to, leading: -leading }
      expect(found(mirrored)).toEqual(found({ ...one, leading }))
      const back = found({ ...one, from: one.to, to: one.from })
      expect(back.seconds).toBeCloseTo(found(one).seconds, 12)
    }
  })

  it('takes no time to stay, and is refused at an edge and beyond', () => {
    const support = [-0.15, 0.15] as const
    expect(found(shift({ from: 0.1, to: 0.1, support, height: 1 })).seconds).toBe(0)
    const why = (from: number, to: number) => bestLeast(shift({ from, to, support, height: 1 }))
    expect(why(-0.15, 0)).toEqual({ ok: false, why: 'starts at the edge' })
    expect(why(-0.2, 0)).toEqual({ ok: false, why: 'starts at the edge' })
    expect(why(0, 0.15)).toEqual({ ok: false, why: 'ends at the edge' })
    expect(why(0.15, 0)).toEqual({ ok: false, why: 'starts at the edge' })
    expect(why(0, -0.2)).toEqual({ ok: false, why: 'ends at the edge' })
  })

  it('may have the trailing support empty at once where the weight is over the leading one from the start', () => {
    const least = found(shift({ from: 0.05, to: 0.1, support: [-0.15, 0.15], height: 1, leading: 0.02 }))
    expect(least.empty).toBe(0)
  })
})

describe('capture point', () => {
  it.each([
    [0.6, 0.0742],
    [0.9, 0.0909],
    [1.0, 0.0958],
  ])('at 0.3 m/s and %d m it is %d m ahead (Hof, Gazendam & Sinke 2005; derived)', (height, ahead) => {
    const [x, z] = capturePoint([1, height, 2], [0.3, 0, 0], height, 9.81)
    expect(x - 1).toBeCloseTo(ahead, 4)
    expect(z).toBe(2)
  })

  it('is where the pendulum comes to rest when it is caught there', () => {
    const [x] = capturePoint([0, 0.8, 0], [0.4, 0, 0], 0.8, 9.81)
    const omega = Math.sqrt(9.81 / 0.8)
    const time = 3
    const at = x + (0 - x) * Math.cosh(omega * time) + (0.4 / omega) * Math.sinh(omega * time)
    expect(at).toBeCloseTo(x, 4)
  })
})
