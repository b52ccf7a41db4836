import type { LimbId } from '../document/contacts'
import { limbOf } from '../document/contacts'
import type { PosePad } from '../pose/types'
import { BAR, TEXT } from './constants'
import type { StageInput, StageWeights } from './input'
import { type Placer, textBox } from './labels'
import { type Anchor, group, type Item, path, type Rect, rectangle, type TextItem } from './list'
import { project, type View } from './project'

/**
 * What each limb carries, as bars hanging detached under what it stands on, their length the share of the
 * whole weight, with per cent and kilograms beside them.
 * @param placer knows what must stay clear; the labels are added to it
 */
export function drawLoads(input: StageInput, weights: StageWeights, view: View, placer: Placer): Item[] {
  const bars = barsOf(input, weights, view)
  for (const { rect } of bars) placer.block(rect)
  // The outermost labels have the first choice: they find room outside.
  const middle = bars.reduce((sum, bar) => sum + bar.x, 0) / Math.max(1, bars.length)
  const order = [...bars].sort((a, b) => Math.abs(b.x - middle) - Math.abs(a.x - middle))
  const labels = new Map(order.map((bar) => [bar.limb, label(bar, bar.x < middle, placer)]))
  return bars.map((bar) =>
    group(
      `load-${bar.limb}`,
      [path(rectangle(bar.rect), { fill: 'weight' }), ...(labels.get(bar.limb) ?? [])],
      { title: `${bar.limb}: ${bar.percent}, ${bar.kilograms}` },
    ),
  )
}

interface Bar {
  readonly limb: LimbId
  readonly x: number
  readonly rect: Rect
  readonly percent: string
  readonly kilograms: string
  /** Raised ones hang inside their box. */
  readonly raised: boolean
}

function barsOf({ pose }: StageInput, { limbs, contacts }: StageWeights, view: View): Bar[] {
  const shareOf = new Map(contacts.map(({ id, share }) => [id, share]))
  return limbs.flatMap(({ id, share, kg }) => {
    const pads = pose.pads.filter((pad) => limbOf(pad.part) === id)
    const [x, y] = project(view, centreOf(pads, shareOf))
    if (pads.length === 0) return []
    const surface = Math.min(y, view.y0)
    const rect = {
      x: x - BAR.width / 2,
      y: surface + BAR.gap,
      width: BAR.width,
      // A hair stays where nothing is carried, so that a touching limb can be told from one that is off.
      height: Math.max(1.5, BAR.whole * Math.min(1.2, Math.max(0, share))),
    }
    const raised = view.y0 - y > BAR.gap
    return [{ limb: id, x, rect, percent: percent(share), kilograms: kilograms(kg), raised }]
  })
}

/** The middle of a limb's pads, each counted by what it carries. */
function centreOf(pads: readonly PosePad[], shareOf: ReadonlyMap<string, number>) {
  let sum = 0
  let [x, y, z] = [0, 0, 0]
  for (const pad of pads) {
    const w = Math.max(0, shareOf.get(pad.id) ?? 0) + 1e-6
    sum += w
    x += w * pad.centre[0]
    y += w * pad.centre[1]
    z += w * pad.centre[2]
  }
  return [x / sum, y / sum, z / sum] as const
}

/** Two lines of text beside the bar, where there is room; further down where there is none. */
function label(bar: Bar, onLeft: boolean, placer: Placer): TextItem[] {
  const outward: Anchor = onLeft ? 'end' : 'start'
  const inward: Anchor = onLeft ? 'start' : 'end'
  const side = (anchor: Anchor) => bar.x + (anchor === 'start' ? 1 : -1) * (BAR.width / 2 + 7)
  const first = bar.rect.y + TEXT.load * 0.84
  const row = TEXT.load + TEXT.small + 9
  const rows = bar.raised ? [0] : [0, row]
  const choices = rows.flatMap((down) =>
    [outward, inward].map((anchor) => ({ x: side(anchor), y: first + down, anchor })),
  )
  const boxes = choices.map(({ x, y, anchor }) => {
    const top = textBox(x, y, bar.percent, TEXT.load, true, anchor)
    const low = textBox(x, y + TEXT.small + 4, bar.kilograms, TEXT.small, false, anchor)
    const left = Math.min(top.x, low.x)
    return {
      x: left,
      y: top.y,
      width: Math.max(top.x + top.width, low.x + low.width) - left,
      height: low.y + low.height - top.y,
    }
  })
  const { x, y, anchor } = choices[placer.take(boxes)] as (typeof choices)[number]
  const halo = bar.raised ? ({ halo: 'block' } as const) : ({ halo: 'paper' } as const)
  return [
    { kind: 'text', x, y, text: bar.percent, size: TEXT.load, bold: true, anchor, ink: 'ink', ...halo },
    {
      kind: 'text',
      x,
      y: y + TEXT.small + 4,
      text: bar.kilograms,
      size: TEXT.small,
      bold: false,
      anchor,
      ink: 'inkSoft',
      ...halo,
    },
  ]
}

/** No-break spaces keep a number and its unit together. */
const percent = (share: number): string => `${Math.round(share * 100) || 0}\u00a0%`

function kilograms(kg: number): string {
  const text = Math.abs(kg) < 9.95 ? (Math.round(kg * 10) / 10 || 0).toString() : Math.round(kg).toString()
  return `${text.length > 4 ? text.replace(/\B(?=(\d{3})+$)/g, '\u00a0') : text}\u00a0kg`
}
