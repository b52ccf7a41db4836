import { ADMISSIBLE_PUSH } from '../shift/constants'
import type { DynamicFrame } from '../weigh/dynamic'
import { SLIDES_FAR, SLIDES_LOADED } from './motion-constants'

/**
 * What a take weighed in motion shows that no body could do: pushes from nowhere of more than an admissible size,
 * and contacts that slide with weight on them. Frames in any order; in the order in which they begin.
 */
export function flagsOf(weighed: readonly DynamicFrame[]): MotionFlag[] {
  const frames = [...weighed].sort((a, b) => a.frame - b.frame)
  const pushed = runsOf(frames, ({ weighing }) => weighing.push.size > ADMISSIBLE_PUSH)
  const pushes = pushed.map((run): MotionFlag => {
    const worst = run.reduce((a, b) => (b.push.kilograms > a.push.kilograms ? b : a))
    return { kind: 'push', ...endsOf(run), frame: worst.frame, kilograms: worst.push.kilograms }
  })
  const contacts = new Set(frames.flatMap(({ drags }) => drags.map(({ id }) => id)))
  const slides = [...contacts].flatMap((id) =>
    runsOf(frames, ({ drags }) => drags.some((drag) => drag.id === id)).flatMap((run) => slide(run, id)),
  )
  return [...pushes, ...slides].sort((a, b) => a.from - b.from)
}

export type MotionFlag = FlagSpan &
  (
    | { readonly kind: 'push' }
    | {
        readonly kind: 'slides'
        /** Contact. */
        readonly id: string
        /** Way slid, m. */
        readonly moved: number
      }
  )

interface FlagSpan {
  readonly from: number
  readonly to: number
  /** Where it is worst, and how much it is there, kg. */
  readonly frame: number
  readonly kilograms: number
}

/** Every contact that begins with a speed into its surface. */
export function landingsOf(weighed: readonly DynamicFrame[]): SaidLanding[] {
  return weighed
    .flatMap(({ frame, landing }) =>
      (landing?.parts ?? []).map(({ id, speed }) => ({
        frame,
        id,
        speed,
        impulse: Math.hypot(...(landing?.impulse ?? [0, 0, 0])),
      })),
    )
    .sort((a, b) => a.frame - b.frame)
}

export interface SaidLanding {
  readonly frame: number
  /** Contact. */
  readonly id: string
  /** Into the surface, m/s. */
  readonly speed: number
  /** What the ground takes of all that lands in the frame, N·s. */
  readonly impulse: number
}

function slide(run: readonly [DynamicFrame, ...DynamicFrame[]], id: string): MotionFlag[] {
  const moved = run.reduce((sum, one) => sum + (one.drags.find((drag) => drag.id === id)?.moved ?? 0), 0)
  const loadOf = ({ weighing }: DynamicFrame) =>
    weighing.contacts.find((contact) => contact.id === id)?.load ?? 0
  const worst = run.reduce((a, b) => (loadOf(b) > loadOf(a) ? b : a))
  const { body } = worst
  const kilograms = loadOf(worst) / body.gravity
  if (kilograms < SLIDES_LOADED * body.mass || moved < SLIDES_FAR * body.stature) return []
  return [{ kind: 'slides', id, ...endsOf(run), frame: worst.frame, kilograms, moved }]
}

/** Neighbouring frames of which something holds. */
function runsOf(
  frames: readonly DynamicFrame[],
  holds: (frame: DynamicFrame) => boolean,
): [DynamicFrame, ...DynamicFrame[]][] {
  const runs: [DynamicFrame, ...DynamicFrame[]][] = []
  for (const frame of frames) {
    if (!holds(frame)) continue
    const last = runs.at(-1)
    if (last && last.at(-1)?.frame === frame.frame - 1) last.push(frame)
    else runs.push([frame])
  }
  return runs
}

const endsOf = (run: readonly [DynamicFrame, ...DynamicFrame[]]) => ({
  from: run[0].frame,
  to: run[run.length - 1]?.frame ?? run[0].frame,
})
