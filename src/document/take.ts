import type { LimbId } from './contacts'

/**
 * How a take is timed, pushed and drawn, beside its keys and contacts: what an animator sets for the whole
 * take, for a part of the body, for a stretch of frames or for one frame.
 */
export interface Manner {
  /** Frames that each drawing stays: on ones, twos or threes. Display only: nothing is weighed by it. */
  readonly exposure: Exposure
  readonly style: Style
  /** How far lean, drop and press go past physics on purpose, 1 … 2: at 1 as far as it needs, at 2 twice. */
  readonly push: number
  /** 0 … 1: from careful, where the move could stop at any moment, to thrown, where it could not. */
  readonly pace: number
  /** Frames by which a part follows (> 0) or leads (< 0) its keys, −12 … 12, fractions allowed. */
  readonly lags: Readonly<Record<LagPart, number>>
  readonly arcs: readonly Arc[]
  readonly accents: readonly Accent[]
  readonly setAside: readonly SetAside[]
}

export type Exposure = 1 | 2 | 3
export const EXPOSURES: readonly Exposure[] = [1, 2, 3]

/** How closely the take is held to physics when it is read for its weight: `graphic` is held to least. */
export type Style = 'grounded' | 'pushed' | 'graphic'
export const STYLES: readonly Style[] = ['grounded', 'pushed', 'graphic']

/** The parts that may lead or lag; the pelvis never does, the others are timed against it. */
export type LagPart = 'chest' | 'head' | LimbId
export const LAG_PARTS: readonly LagPart[] = ['chest', 'head', 'armL', 'armR', 'legL', 'legR']

/**
 * The path of a free limb between two frames, bowed: not at all at `from` and `to`, most at its middle.
 * `from` comes before `to`; arcs of one limb may share a frame where one ends and the next begins.
 */
export interface Arc {
  readonly id: string
  readonly limb: LimbId
  readonly from: number
  readonly to: number
  /** Up at the middle, m; < 0 dips. */
  readonly height: number
  /** To the body's left at the middle, m. */
  readonly side: number
}

/** Something that catches the eye at a frame, such as a blink, a head turn, a fist closing, gear opening. */
export interface Accent {
  readonly id: string
  readonly frame: number
  readonly name: string
}

/** A note on weight that was set aside with a reason. */
export interface SetAside {
  readonly id: string
  /** Which rule the note is of. */
  readonly rule: string
  /** First frame of the note. */
  readonly from: number
  readonly reason: string
}

/** A take that nobody has styled: on ones, as physics has it, every part on its keys. */
export const PLAIN_MANNER: Manner = {
  exposure: 1,
  style: 'grounded',
  push: 1,
  pace: 0.5,
  lags: { chest: 0, head: 0, armL: 0, armR: 0, legL: 0, legR: 0 },
  arcs: [],
  accents: [],
  setAside: [],
}
