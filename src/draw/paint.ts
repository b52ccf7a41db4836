import {
  ARGUMENTS,
  type DisplayList,
  type Group,
  type Item,
  OP,
  type Paint,
  type Path,
  type TextItem,
} from './list'
import type { Palette } from './palette'
import { HALO_WIDTH, SYSTEM_FONT } from './svg'

/** What a list is painted on: the part of CanvasRenderingContext2D that it takes. */
export interface PaintTarget {
  fillStyle: unknown
  strokeStyle: unknown
  lineWidth: number
  lineCap: string
  lineJoin: string
  font: string
  textAlign: string
  globalAlpha: number
  letterSpacing?: string
  save(): void
  restore(): void
  beginPath(): void
  moveTo(x: number, y: number): void
  lineTo(x: number, y: number): void
  quadraticCurveTo(cx: number, cy: number, x: number, y: number): void
  bezierCurveTo(c1x: number, c1y: number, c2x: number, c2y: number, x: number, y: number): void
  arc(x: number, y: number, r: number, from: number, to: number, counterclockwise?: boolean): void
  closePath(): void
  clip(): void
  fill(): void
  stroke(): void
  fillRect(x: number, y: number, width: number, height: number): void
  fillText(text: string, x: number, y: number): void
  strokeText(text: string, x: number, y: number): void
  setLineDash(segments: number[]): void
}

export interface PaintOptions {
  readonly palette: Palette
  readonly font?: string
  readonly background?: boolean
}

/** Paints a display list; the same primitives in the same order as its SVG. The target's own transform holds. */
export function paintList(list: DisplayList, target: PaintTarget, options: PaintOptions): void {
  const { palette, font = SYSTEM_FONT, background = true } = options
  target.save()
  target.lineJoin = 'round'
  if (background) {
    target.fillStyle = palette.paper
    target.fillRect(0, 0, list.width, list.height)
  }
  for (const item of list.items) paintItem(item, target, palette, font)
  target.restore()
}

function paintItem(item: Item, target: PaintTarget, palette: Palette, font: string): void {
  if (item.kind === 'group') paintGroup(item, target, palette, font)
  else if (item.kind === 'text') paintText(item, target, palette, font)
  else {
    target.beginPath()
    if (item.kind === 'path') trace(item.path, target)
    else if (item.kind === 'circle') target.arc(item.x, item.y, item.r, 0, 2 * Math.PI)
    else {
      target.moveTo(item.x1, item.y1)
      target.lineTo(item.x2, item.y2)
    }
    finish(item, target, palette)
  }
}

function paintGroup({ clip, items }: Group, target: PaintTarget, palette: Palette, font: string): void {
  if (clip) {
    target.save()
    target.beginPath()
    target.moveTo(clip.x, clip.y)
    target.lineTo(clip.x + clip.width, clip.y)
    target.lineTo(clip.x + clip.width, clip.y + clip.height)
    target.lineTo(clip.x, clip.y + clip.height)
    target.closePath()
    target.clip()
  }
  for (const item of items) paintItem(item, target, palette, font)
  if (clip) target.restore()
}

function paintText(t: TextItem, target: PaintTarget, palette: Palette, font: string): void {
  target.font = `${t.bold ? 'bold ' : ''}${t.size}px ${font}`
  target.textAlign = ALIGN[t.anchor]
  target.letterSpacing = `${t.spacing ?? 0}px`
  if (t.halo) {
    target.strokeStyle = palette[t.halo]
    target.lineWidth = HALO_WIDTH
    target.setLineDash([])
    target.strokeText(t.text, t.x, t.y)
  }
  target.fillStyle = palette[t.ink]
  target.fillText(t.text, t.x, t.y)
}

const ALIGN = { start: 'left', middle: 'center', end: 'right' } as const

function finish(p: Paint, target: PaintTarget, palette: Palette): void {
  const alpha = p.alpha ?? 1
  if (alpha < 1) target.globalAlpha = alpha
  if (p.fill) {
    target.fillStyle = palette[p.fill]
    target.fill()
  }
  if (p.stroke) {
    target.strokeStyle = palette[p.stroke]
    target.lineWidth = p.width ?? 1
    target.lineCap = p.round ? 'round' : 'butt'
    target.setLineDash(p.dash ? [...p.dash] : [])
    target.stroke()
  }
  if (alpha < 1) target.globalAlpha = 1
}

function trace(path: Path, target: PaintTarget): void {
  for (let i = 0; i < path.length; ) {
    const op = path[i] as number
    const a = (k: number) => path[i + k] as number
    if (op === OP.move) target.moveTo(a(1), a(2))
    else if (op === OP.line) target.lineTo(a(1), a(2))
    else if (op === OP.quad) target.quadraticCurveTo(a(1), a(2), a(3), a(4))
    else if (op === OP.cubic) target.bezierCurveTo(a(1), a(2), a(3), a(4), a(5), a(6))
    else if (op === OP.arc) target.arc(a(1), a(2), a(3), a(4), a(5), a(5) < a(4))
    else target.closePath()
    i += 1 + (ARGUMENTS[op] as number)
  }
}
