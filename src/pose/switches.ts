import type { ChannelId, Controls } from '../document/channels'
import type { Take } from '../document/plan'
import { Curve, type Knot } from './curve'

/**
 * The pelvis's curves of a take, one set per stretch of frames with the same contacts.
 *
 * The pelvis rides on what is planted, so that its reached path is not the curve through its keys. Where
 * a contact ends or begins, the stretch with fewer contacts takes over the other's reached place, slope
 * and second slope, and runs from there to its next key: a switch makes no jolt of its own.
 */
export class PelvisCurves {
  private readonly stretches: readonly Stretch[]
  private readonly made = new Map<Stretch, Record<PelvisChannel, Curve>>()

  /**
   * @param knots of the four channels, through the reached key poses
   * @param settled the controls at a frame that give the pose reached there by the given curves, for the contacts of
   * another frame: how the next stretch has to ask for it
   */
  constructor(
    take: Take,
    private readonly knots: Readonly<Record<PelvisChannel, readonly Knot[]>>,
    private readonly settled: (frame: number, contactsOf: number) => Controls,
  ) {
    this.stretches = stretchesOf(take)
  }

  /** The four channels asked for at a frame. */
  at(frame: number): Record<PelvisChannel, number> {
    const curves = this.curvesOf(this.stretchAt(frame))
    return mapPelvis((id) => curves[id].at(frame))
  }

  /** At a border the stretch with more contacts holds. */
  private stretchAt(frame: number): Stretch {
    let held: Stretch | null = null
    for (const stretch of this.stretches)
      if (stretch.from <= frame && frame <= stretch.to && (held === null || stretch.contacts > held.contacts))
        held = stretch
    return held ?? (this.stretches[0] as Stretch)
  }

  private curvesOf(stretch: Stretch): Record<PelvisChannel, Curve> {
    const known = this.made.get(stretch)
    if (known) return known
    const i = this.stretches.indexOf(stretch)
    const start = this.takenOver(this.stretches[i - 1], stretch, -1)
    const end = this.takenOver(this.stretches[i + 1], stretch, 1)
    const curves = mapPelvis((id) => {
      const own = this.knots[id].filter(
        ({ frame }) => (!start || frame > stretch.from) && (!end || frame < stretch.to),
      )
      return new Curve([...(start ? [start[id]] : []), ...own, ...(end ? [end[id]] : [])])
    })
    this.made.set(stretch, curves)
    return curves
  }

  /**
   * Knots at the border to a neighbour that holds more, from one-sided differences on its side.
   * @param side −1 where the neighbour lies before the stretch, 1 after it
   */
  private takenOver(
    other: Stretch | undefined,
    stretch: Stretch,
    side: -1 | 1,
  ): Record<PelvisChannel, Knot> | null {
    if (other === undefined || other.contacts <= stretch.contacts) return null
    const border = side < 0 ? stretch.from : stretch.to
    const room = other.to - other.from
    if (room <= 0) return null
    const h = Math.min(DIFFERENCE, room / 4) * side
    const inside = (stretch.from + stretch.to) / 2
    const samples = [0, 1, 2, 3].map((k) => this.settled(border + k * h, inside))
    return mapPelvis((id) => {
      const [p0, p1, p2, p3] = samples.map((controls) => controls[id]) as [number, number, number, number]
      return {
        frame: border,
        value: p0,
        slope: (-11 * p0 + 18 * p1 - 9 * p2 + 2 * p3) / (6 * h),
        bend: (2 * p0 - 5 * p1 + 4 * p2 - p3) / (h * h),
      }
    })
  }
}

export const PELVIS = ['pelvis.x', 'pelvis.y', 'pelvis.z', 'pelvis.list'] as const
export type PelvisChannel = (typeof PELVIS)[number] & ChannelId

/** Frames between the samples of a border's slopes. */
const DIFFERENCE = 0.1

/** Frames from one change of contacts to the next. */
interface Stretch {
  readonly from: number
  readonly to: number
  readonly contacts: number
}

function stretchesOf(take: Take): Stretch[] {
  const last = take.length - 1
  const borders = new Set([0, last])
  for (const { from, to } of take.contacts) {
    if (from > 0 && from < last) borders.add(from)
    if (to > 0 && to < last) borders.add(to)
  }
  const frames = [...borders].sort((a, b) => a - b)
  if (frames.length === 1) return [{ from: 0, to: 0, contacts: 0 }]
  return frames.slice(1).map((to, i) => {
    const from = frames[i] as number
    const middle = (from + to) / 2
    const contacts = take.contacts.filter((c) => c.from <= middle && middle <= c.to).length
    return { from, to, contacts }
  })
}

const mapPelvis = <T>(f: (id: PelvisChannel) => T): Record<PelvisChannel, T> => ({
  'pelvis.x': f('pelvis.x'),
  'pelvis.y': f('pelvis.y'),
  'pelvis.z': f('pelvis.z'),
  'pelvis.list': f('pelvis.list'),
})
