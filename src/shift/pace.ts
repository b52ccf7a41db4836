import { Simplex } from '../weigh/simplex'
import { ContactSystem } from '../weigh/system'
import type { Body, Contact } from '../weigh/types'
import { ADMISSIBLE_PUSH, HOLDS_BACK, LEAVES_GROUND, MORE_GRIP, STILL } from './constants'
import { type Allowance, PaceColumns } from './pace-columns'

/**
 * How fast a frame may go: when time is scaled by σ, a motion asks for w_static + λ w_dynamic with λ = 1/σ².
 * The λ that the frame's contacts allow are an interval, found by two linear programmes over exact friction
 * cones and load limits, with a push from nowhere that is no larger than allowed.
 *
 * Null where no λ at all is allowed, least 0 and most ∞ for a frame that is still and can be held.
 * @param body with the frame's force and moment, at λ = 1
 * @param push the largest that is allowed, W
 */
export function paceOf(contacts: readonly Contact[], body: Body, push = ADMISSIBLE_PUSH): Pace | null {
  return finder.find(contacts, body, { ...EXACT, push })
}

/** Values of λ; 1 is the pace as it is. */
export interface Pace {
  readonly least: number
  readonly most: number
}

/** What keeps a frame from another pace. */
export type Hold =
  /** The centre of pressure runs out of what it stands on. */
  | 'edge'
  /** Something would slip. */
  | 'grip'
  /** A contact would carry more than it may. */
  | 'load limit'
  /** It would have to be pulled down. */
  | 'leaves the ground'

/**
 * Why a frame can go no faster than its greatest λ, or why no λ is allowed. Where both tipping and slipping hold
 * it back, as on supports of different heights, it is what makes the greater difference: not to tip at all, or
 * twice the grip.
 */
export function holdOf(contacts: readonly Contact[], body: Body): Hold {
  const most = (allowance: Partial<Allowance>) =>
    finder.find(contacts, body, { ...EXACT, ...allowance })?.most ?? 0
  const now = most({})
  const up = 1 + ((body.force?.[1] ?? 0) / (body.mass * body.gravity) - 1) * now
  if (up < LEAVES_GROUND) return 'leaves the ground'
  if (most({ limits: false }) > HOLDS_BACK * now) return 'load limit'
  const gripping = most({ grip: MORE_GRIP })
  return gripping > HOLDS_BACK * now && gripping > most({ tipping: false }) ? 'grip' : 'edge'
}

const EXACT: Allowance = { grip: 1, tipping: true, limits: true, push: ADMISSIBLE_PUSH }
/** Of a still body, force over W and moment over W L. */
const WEIGHT = [0, 1, 0, 0, 0, 0] as const

class PaceFinder {
  private readonly system = new ContactSystem()
  private readonly columns = new PaceColumns()
  private readonly simplex = new Simplex()

  find(contacts: readonly Contact[], body: Body, allowance: Allowance): Pace | null {
    const { system, columns, simplex } = this
    system.load(contacts, body)
    const rows = columns.load(system, WEIGHT, allowance)
    const still = columns.size < STILL
    // A still frame's pace costs nothing and moves nothing.
    if (still) columns.size = 1
    columns.fillBounds(simplex.begin(columns, rows), WEIGHT)
    for (let row = 6; row < rows; row++) simplex.adopt(columns.slackOf(row), row)
    columns.paceCost = 0
    if (!simplex.findFeasible()) return null
    if (still) return { least: 0, most: Number.POSITIVE_INFINITY }
    columns.paceCost = -1
    const most = -simplex.optimise() / columns.size
    columns.paceCost = 1
    const least = simplex.optimise() / columns.size
    return { least: least < STILL ? 0 : least, most: Math.max(0, most) }
  }
}

const finder = new PaceFinder()
