import type { Vec3 } from '../space/vec'
import type { Anchor } from './anchor'
import { EASE_CAP, EASE_STRENGTH } from './constants'
import { N } from './small'

/** An exact distance: a thigh on a planted knee. */
export interface Rod {
  readonly name: string
  readonly anchor: Anchor
  readonly target: Vec3
  readonly length: number
}

/** A distance within limits, eased: a leg on a planted foot, an arm on a planted hand. */
export interface Rope {
  readonly name: string
  readonly anchor: Anchor
  readonly target: Vec3
  /** Eased from `easeMax` to `max`, and from `easeMin` down to `min`, m. */
  readonly max: number
  readonly easeMax: number
  readonly min: number
  readonly easeMin: number
}

/** Ties being gathered. */
export interface TieLists {
  readonly rods: Rod[]
  readonly ropes: Rope[]
}

/**
 * Half the squared distance of an anchor from its target as a function of the pelvis (x, y, z in m, list
 * in rad): its slopes, and the two entries of its second slopes that aren't 0 or 1.
 */
export class HalfSquare {
  squared = 0
  readonly slope = new Float64Array(N)
  /** ∂²/∂x∂list, ∂²/∂y∂list, ∂²/∂z∂list. */
  readonly mixed = new Float64Array(3)
  /** ∂²/∂list². */
  bend = 0

  /** The anchor is p + c0 + cos l · c1 + sin l · c2. */
  at({ c0, c1, c2 }: Anchor, target: Vec3, q: Float64Array): this {
    const list = q[3] as number
    const c = Math.cos(list)
    const s = Math.sin(list)
    let squared = 0
    let along = 0
    let bend = 0
    for (let i = 0; i < 3; i++) {
      const k1 = c1[i] as number
      const k2 = c2[i] as number
      const e = (q[i] as number) + (c0[i] as number) + c * k1 + s * k2 - (target[i] as number)
      const d = c * k2 - s * k1
      this.slope[i] = e
      this.mixed[i] = d
      squared += e * e
      along += e * d
      bend += d * d - e * (c * k1 + s * k2)
    }
    this.squared = squared
    this.slope[3] = along
    this.bend = bend
    return this
  }

  /** Adds first · (second slopes) + second · (slope slopeᵀ) to a Hessian in units of `unit`. */
  addTo(hessian: Float64Array, unit: Float64Array, first: number, second: number): void {
    for (let i = 0; i < N; i++)
      for (let j = 0; j < N; j++) {
        const own =
          i < 3 && j < 3 ? (i === j ? 1 : 0) : i === j ? this.bend : (this.mixed[Math.min(i, j)] as number)
        hessian[i * N + j] =
          (hessian[i * N + j] as number) +
          (unit[i] as number) *
            (unit[j] as number) *
            (first * own + second * (this.slope[i] as number) * (this.slope[j] as number))
      }
  }
}

/** The cost of a rope at a distance, with its first and second slope in the distance. */
export class Easing {
  value = 0
  slope = 0
  bend = 0

  at(rope: Rope, distance: number): this {
    if (distance > rope.easeMax) return this.wall(distance - rope.easeMax, rope.max - rope.easeMax, 1)
    return this.below(distance, rope.min, rope.easeMin)
  }

  /** The cost of being lower than `from`, without end at `least`. */
  below(value: number, least: number, from: number): this {
    if (value < from) return this.wall(from - value, from - least, -1)
    this.value = this.slope = this.bend = 0
    return this
  }

  /** k t³ / (1 − t), smooth to the second slope at 0, carried on as its own parabola past the cap. */
  private wall(by: number, width: number, sign: 1 | -1): this {
    const t = by / width
    const c = Math.min(t, EASE_CAP)
    const r = 1 / (1 - c)
    const d = t - c
    const bend = 6 * c * r + 6 * c * c * r * r + 2 * c ** 3 * r ** 3
    const slope = 3 * c * c * r + c ** 3 * r * r
    this.value = EASE_STRENGTH * (c ** 3 * r + slope * d + (bend * d * d) / 2)
    this.slope = (EASE_STRENGTH * sign * (slope + bend * d)) / width
    this.bend = (EASE_STRENGTH * bend) / width ** 2
    return this
  }
}
