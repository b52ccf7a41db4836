import {
  ARGUMENTS,
  type CircleItem,
  type DisplayList,
  type Group,
  type Item,
  type LineItem,
  OP,
  type Paint,
  type Path,
  type PathItem,
  type TextItem,
} from './list'
import type { Palette } from './palette'

export interface SvgOptions {
  readonly palette: Palette
  /** A CSS font family list. */
  readonly font?: string
  /** Begins every id in the file, so that several can stand in one page. */
  readonly prefix?: string
  /** Fill the whole with paper first. */
  readonly background?: boolean
}

/** What every system has. */
export const SYSTEM_FONT = 'system-ui, sans-serif'

/**
 * A display list as an SVG document: presentation attributes only (no style element or attribute, which a
 * strict content security policy would refuse), a class for every ink, so that a page's own style sheet
 * can recolour it where the system forces colours.
 */
export function toSvg(list: DisplayList, options: SvgOptions): string {
  const { palette, font = SYSTEM_FONT, prefix = 'drawing', background = true } = options
  const w = num(list.width)
  const h = num(list.height)
  const writer: Writer = { palette, prefix, clips: 0, out: [] }
  writer.out.push(
    `<svg xmlns="http://www.w3.org/2000/svg" width="${w}" height="${h}" viewBox="0 0 ${w} ${h}" role="img"`,
    ` aria-labelledby="${escaped(prefix)}-title ${escaped(prefix)}-desc" font-family="${escaped(font)}"`,
    ` stroke-linejoin="round">`,
    `<title id="${escaped(prefix)}-title">${escaped(list.title)}</title>`,
    `<desc id="${escaped(prefix)}-desc">${escaped(list.desc)}</desc>`,
  )
  if (background)
    writer.out.push(`<rect class="fill-paper" width="${w}" height="${h}" fill="${escaped(palette.paper)}"/>`)
  for (const item of list.items) write(item, writer)
  writer.out.push('</svg>')
  return writer.out.join('')
}

interface Writer {
  readonly palette: Palette
  readonly prefix: string
  clips: number
  readonly out: string[]
}

function write(item: Item, w: Writer): void {
  if (item.kind === 'group') writeGroup(item, w)
  else if (item.kind === 'text') writeText(item, w)
  else w.out.push(`<${shape(item)}${paint(item, w)}/>`)
}

function shape(item: PathItem | CircleItem | LineItem): string {
  if (item.kind === 'path') return `path d="${pathData(item.path)}"`
  if (item.kind === 'circle') return `circle cx="${num(item.x)}" cy="${num(item.y)}" r="${num(item.r)}"`
  return `line x1="${num(item.x1)}" y1="${num(item.y1)}" x2="${num(item.x2)}" y2="${num(item.y2)}"`
}

function writeGroup({ name, title, clip, items }: Group, w: Writer): void {
  let attributes = ` data-name="${escaped(name)}"`
  if (clip) {
    const id = `${w.prefix}-clip-${w.clips++}`
    w.out.push(
      `<clipPath id="${escaped(id)}"><rect x="${num(clip.x)}" y="${num(clip.y)}" width="${num(clip.width)}" height="${num(clip.height)}"/></clipPath>`,
    )
    attributes += ` clip-path="url(#${escaped(id)})"`
  }
  w.out.push(`<g${attributes}>`)
  if (title !== undefined) w.out.push(`<title>${escaped(title)}</title>`)
  for (const item of items) write(item, w)
  w.out.push('</g>')
}

function writeText(t: TextItem, w: Writer): void {
  const halo = t.halo
    ? ` stroke="${escaped(w.palette[t.halo])}" stroke-width="${HALO_WIDTH}" paint-order="stroke"`
    : ''
  const anchor = t.anchor === 'start' ? '' : ` text-anchor="${t.anchor}"`
  const bold = t.bold ? ' font-weight="bold"' : ''
  const spacing = t.spacing ? ` letter-spacing="${num(t.spacing)}"` : ''
  w.out.push(
    `<text class="fill-${t.ink}" x="${num(t.x)}" y="${num(t.y)}" font-size="${num(t.size)}"${bold}${anchor}${spacing}`,
    ` fill="${escaped(w.palette[t.ink])}"${halo}>${escaped(t.text)}</text>`,
  )
}

/** Width of the stroke under letters with a halo, px. */
export const HALO_WIDTH = 4

function paint(p: Paint, { palette }: Writer): string {
  const classes = [p.fill && `fill-${p.fill}`, p.stroke && `stroke-${p.stroke}`].filter(Boolean).join(' ')
  let out = classes ? ` class="${classes}"` : ''
  out += ` fill="${p.fill ? escaped(palette[p.fill]) : 'none'}"`
  if (p.stroke) {
    out += ` stroke="${escaped(palette[p.stroke])}" stroke-width="${num(p.width ?? 1)}"`
    if (p.dash) out += ` stroke-dasharray="${p.dash.map(num).join(' ')}"`
    if (p.round) out += ' stroke-linecap="round"'
  }
  if (p.alpha !== undefined && p.alpha < 1) out += ` opacity="${num(p.alpha)}"`
  return out
}

/** A path as SVG path data. */
export function pathData(path: Path): string {
  const out: string[] = []
  for (let i = 0; i < path.length; ) {
    const op = path[i] as number
    const a = path.slice(i + 1, i + 1 + (ARGUMENTS[op] as number))
    if (op === OP.arc) out.push(arcData(a, i === 0))
    else out.push(LETTERS[op] as string, a.map(num).join(' '))
    i += 1 + a.length
  }
  return out.join('')
}

const LETTERS = ['M', 'L', 'Q', 'C', '', 'Z']

function arcData(a: readonly number[], first: boolean): string {
  const [cx, cy, r, from, to] = a as [number, number, number, number, number]
  const at = (angle: number) => `${num(cx + r * Math.cos(angle))} ${num(cy + r * Math.sin(angle))}`
  const sweep = to > from ? 1 : 0
  const start = `${first ? 'M' : 'L'}${at(from)}`
  // SVG arcs name only their ends, so that a full turn has to be drawn as two halves.
  const pieces = Math.abs(to - from) > Math.PI ? 2 : 1
  let out = start
  for (let k = 1; k <= pieces; k++)
    out += `A${num(r)} ${num(r)} 0 0 ${sweep} ${at(from + ((to - from) * k) / pieces)}`
  return out
}

/** Hundredths of a pixel are enough; a number that is not finite is a programmer's error. */
function num(value: number): string {
  if (!Number.isFinite(value)) throw new Error(`a drawing needs finite numbers, got ${value}`)
  return String(Math.round(value * 100) / 100 || 0)
}

const escaped = (text: string): string =>
  text.replace(/[&<>"']/g, (c) => `&#${c.charCodeAt(0)};`).replace(CONTROL, '')

/** Characters that XML 1.0 cannot hold. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g
