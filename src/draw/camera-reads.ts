import type { Camera } from '../document/plan'
import { dot, sub, type Vec3 } from '../space/vec'
import { orbited, projectShot, type Shot, shotOf } from './camera'

/** What of a body shows its lean: its centre of mass and its hip joints, world, m. */
export interface LeanPlaces {
  readonly com: Vec3
  readonly hipL: Vec3
  readonly hipR: Vec3
}

/**
 * How far a lean travels on the screen of a shot, and what would make it read where it does not: the smallest
 * turn, of the camera round its aim or of the body the other way, after which it does.
 * @param stature m
 */
export function leanOnScreen(camera: Camera, stature: number, from: LeanPlaces, to: LeanPlaces): ScreenLean {
  const here = seen(camera, stature, from, to)
  if (here === null) return { seen: false }
  const reads = here.travel >= READS_TRAVEL
  const hipLine = Math.abs(here.hipLine) >= READS_HIP_LINE
  return {
    seen: true,
    ...here,
    reads,
    hipLineReads: hipLine,
    turn: reads ? 0 : nearestTurn(camera, stature, from, to),
  }
}

export type ScreenLean =
  /** Some of it lies behind the camera. */
  | { readonly seen: false }
  | {
      readonly seen: true
      /** Sideways on the screen, over the body's height there. */
      readonly travel: number
      /** By how much the hip line tips on the screen, rad. */
      readonly hipLine: number
      readonly reads: boolean
      readonly hipLineReads: boolean
      /**
       * The least orbit, rad, > 0 to the camera's right, after which it reads; null where it reads from nowhere.
       * Turning the body as far the other way does the same.
       */
      readonly turn: number | null
    }

/** Travel over the body's height on the screen from which a lean is seen as one. Ours: half a head's breadth. */
const READS_TRAVEL = 0.04
/** Tip of the hip line from which it tells the lean even head-on, rad. Ours: the least that a drawing shows. */
const READS_HIP_LINE = (4 * Math.PI) / 180
/** Orbits are tried this far apart, rad. */
const STEP = Math.PI / 180

/** Any size will do: only ratios count. */
const SIZE = 1000

function seen(camera: Camera, stature: number, from: LeanPlaces, to: LeanPlaces) {
  const shot = shotOf(camera, SIZE, SIZE)
  const [a, b] = [projectShot(shot, from.com), projectShot(shot, to.com)]
  const [before, after] = [hipLine(shot, from), hipLine(shot, to)]
  if (!a || !b || before === null || after === null) return null
  const height = (shot.focal * stature * 2) / (a[2] + b[2])
  return { travel: Math.abs(b[0] - a[0]) / height, hipLine: after - before }
}

/** Of the line from hip to hip against the level, −90° … 90°. */
function hipLine(shot: Shot, { hipL, hipR }: LeanPlaces): number | null {
  const [l, r] = [projectShot(shot, hipL), projectShot(shot, hipR)]
  if (!l || !r) return null
  const across = l[0] - r[0]
  // Seen along itself a hip line is a dot and tips nowhere.
  if (Math.hypot(across, l[1] - r[1]) * Math.max(l[2], r[2]) < 0.1 * shot.focal * widthOf({ hipL, hipR }))
    return 0
  return Math.atan((r[1] - l[1]) / (across || Number.MIN_VALUE))
}

const widthOf = ({ hipL, hipR }: Pick<LeanPlaces, 'hipL' | 'hipR'>): number =>
  Math.sqrt(dot(sub(hipL, hipR), sub(hipL, hipR)))

function nearestTurn(camera: Camera, stature: number, from: LeanPlaces, to: LeanPlaces): number | null {
  for (let turn = STEP; turn <= Math.PI / 2 + 1e-9; turn += STEP)
    for (const sign of [1, -1]) {
      const there = seen(orbited(camera, sign * turn, 0), stature, from, to)
      if (there && there.travel >= READS_TRAVEL) return sign * turn
    }
  return null
}
