import type { LimbId } from '../document/contacts'
import { limbOf } from '../document/contacts'
import type { PosePad } from '../pose/types'
import { boxFace } from './boxes'
import { BAR, TEXT } from './constants'
import type { StageInput, StageWeights, StageWords } from './input'
import { type Placer, textBox } from './labels'
import {
  type Anchor,
  group,
  type Ink,
  type Item,
  line,
  path,
  type Rect,
  rectangle,
  type TextItem,
} from './list'
import { project, type View } from './project'
import type { Scene } from './scene'

/**
 * What each limb carries, as bars hanging detached under what it stands on, their length the share of the
 * whole weight, with per cent and kilograms beside them. A raised limb's label is led out of the body.
 * @param placer knows what must stay clear; the labels are added to it
 */
export function drawLoads(
  input: StageInput,
  weights: StageWeights,
  words: StageWords,
  scene: Scene,
  placer: Placer,
): Item[] {
  const bars = barsOf(input, weights, scene.view)
  for (const { rect } of bars) placer.block(rect)
  // The outermost labels have the first choice: they find room outside.
  const middle = bars.reduce((sum, bar) => sum + bar.x, 0) / Math.max(1, bars.length)
  const order = [...bars].sort((a, b) => Math.abs(b.x - middle) - Math.abs(a.x - middle))
  const labels = new Map(
    order.map((bar) => {
      const outward = bar.x < middle ? 'end' : 'start'
      const places = bar.raised ? besideBody(bar, outward, scene, input) : besideBar(bar, outward)
      return [bar.limb, label(bar, places, placer)]
    }),
  )
  return bars.map((bar) =>
    group(
      `load-${bar.limb}`,
      [path(rectangle(bar.rect), { fill: 'weight' }), ...(labels.get(bar.limb) ?? [])],
      { title: `${words.limb(bar.limb)}: ${bar.percent}, ${bar.kilograms}` },
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

interface Place {
  readonly x: number
  /** Base line of the per cent. */
  readonly y: number
  readonly anchor: Anchor
}

const opposite = (anchor: Anchor): Anchor => (anchor === 'start' ? 'end' : 'start')

/** Beside the bar, where there is room; further down where there is none. */
function besideBar({ x, rect }: Bar, outward: Anchor): Place[] {
  const side = (anchor: Anchor) => x + (anchor === 'start' ? 1 : -1) * (BAR.width / 2 + 7)
  const first = rect.y + TEXT.load * 0.84
  return [first, first + LABEL_HEIGHT + 4].flatMap((y) =>
    [outward, opposite(outward)].map((anchor) => ({ x: side(anchor), y, anchor })),
  )
}

/** On clear paper at either side of everything at the bar's height, at it or a little above or below. */
function besideBody(
  { rect }: Bar,
  outward: Anchor,
  { view, shapes }: Scene,
  { boxes = [] }: StageInput,
): Place[] {
  const outlines = [
    ...shapes.map(({ outline }) => outline),
    ...boxes.map((box) => {
      const { outline } = boxFace(box, view)
      return { x: outline.filter((_, i) => i % 2 === 0), y: outline.filter((_, i) => i % 2 === 1) }
    }),
  ]
  return [0, -14, 14, -28].flatMap((shift) => {
    const top = rect.y + shift - 4
    let [left, right] = [rect.x, rect.x + rect.width]
    for (const { x, y } of outlines)
      for (let i = 0; i < x.length; i++) {
        if ((y[i] as number) < top || (y[i] as number) > top + LABEL_HEIGHT + 8) continue
        left = Math.min(left, x[i] as number)
        right = Math.max(right, x[i] as number)
      }
    // Level with the bar's top, so that the leader runs straight.
    const y = rect.y + Math.min(4, rect.height / 2) + TEXT.load * 0.34 + shift
    return [outward, opposite(outward)].map((anchor) => ({
      x: anchor === 'start' ? right + 12 : left - 12,
      y,
      anchor,
    }))
  })
}

const LABEL_HEIGHT = TEXT.load + TEXT.small + 5

/** Two lines of text at the first place that is free, led to their bar where it is far. */
function label(bar: Bar, places: readonly Place[], placer: Placer): Item[] {
  const boxes = places.map(({ x, y, anchor }) => {
    const top = textBox(x, y, bar.percent, TEXT.load, true, anchor)
    const low = textBox(x, y + TEXT.small + 4, bar.kilograms, TEXT.small, false, anchor)
    const left = Math.min(top.x, low.x)
    const width = Math.max(top.x + top.width, low.x + low.width) - left
    return { x: left, y: top.y, width, height: low.y + low.height - top.y }
  })
  const { x, y, anchor } = places[placer.take(boxes)] as Place
  const text = (words: string, size: number, bold: boolean, ink: Ink, down: number): TextItem => ({
    kind: 'text',
    x,
    y: y + down,
    text: words,
    size,
    bold,
    anchor,
    ink,
    halo: 'paper',
  })
  const end = x + (anchor === 'start' ? -4 : 4)
  const start = bar.x + (anchor === 'start' ? 1 : -1) * (BAR.width / 2 + 3)
  const level = bar.rect.y + Math.min(4, bar.rect.height / 2)
  return [
    ...(bar.raised ? [line(start, level, end, y - TEXT.load * 0.34, { stroke: 'inkSoft', width: 1 })] : []),
    text(bar.percent, TEXT.load, true, 'ink', 0),
    text(bar.kilograms, TEXT.small, false, 'inkSoft', TEXT.small + 4),
  ]
}

/** No-break spaces keep a number and its unit together. */
const percent = (share: number): string => `${Math.round(share * 100) || 0}\u00a0%`

export function kilograms(kg: number): string {
  const text = Math.abs(kg) < 9.95 ? (Math.round(kg * 10) / 10 || 0).toString() : Math.round(kg).toString()
  return `${text.length > 4 ? text.replace(/\B(?=(\d{3})+$)/g, '\u00a0') : text}\u00a0kg`
}
