import { PEN_TAPER } from './constants'
import type { Outline } from './hull'
import { OP, type Path } from './list'

/**
 * A line as a pen draws it along an outline: as wide as `widths` says at every point, tapering to nothing
 * where it ends. Lies half inside, half outside the outline.
 * @param widths one for each point of the outline, px; no line where it is 0
 * @param taper length over which an end tapers, px
 * @returns a path to be filled
 */
export function penLine(o: Outline, widths: readonly number[], taper = PEN_TAPER): Path {
  const n = widths.length
  const out: number[] = []
  const gap = widths.indexOf(0)
  if (gap < 0) {
    ring(o, widths, out)
    return out
  }
  for (let k = 1; k <= n; k++) {
    const first = (gap + k) % n
    if (widths[first] === 0 || widths[(first + n - 1) % n] !== 0) continue
    const run: number[] = []
    for (let i = first; widths[i] !== 0; i = (i + 1) % n) run.push(i)
    stroke(o, run, widths, taper, out)
  }
  return out
}

/** An open line: out along one side and back along the other. */
function stroke(o: Outline, run: readonly number[], widths: readonly number[], taper: number, out: number[]) {
  const along = lengths(o, run)
  const total = along[along.length - 1] as number
  if (total < 1e-6) return
  // A short line is a short stroke, not a blot: it tapers over half its length.
  const end = Math.min(taper, total / 2)
  const half = run.map((i, k) => {
    const s = along[k] as number
    const t = Math.min(1, Math.min(s, total - s) / end)
    return 0.5 * (widths[i] as number) * Math.sqrt(t)
  })
  for (let k = 0; k < run.length; k++) point(o, run[k] as number, half[k] as number, out, k === 0)
  for (let k = run.length - 1; k >= 0; k--) point(o, run[k] as number, -(half[k] as number), out, false)
  out.push(OP.close)
}

function ring(o: Outline, widths: readonly number[], out: number[]) {
  const n = widths.length
  for (let i = 0; i < n; i++) point(o, i, 0.5 * (widths[i] as number), out, i === 0)
  out.push(OP.close)
  // The other way round, so that the non-zero rule leaves the inside open.
  for (let i = n - 1; i >= 0; i--) point(o, i, -0.5 * (widths[i] as number), out, i === n - 1)
  out.push(OP.close)
}

function point(o: Outline, i: number, d: number, out: number[], first: boolean) {
  out.push(
    first ? OP.move : OP.line,
    (o.x[i] as number) + d * (o.nx[i] as number),
    (o.y[i] as number) + d * (o.ny[i] as number),
  )
}

function lengths(o: Outline, run: readonly number[]): number[] {
  const out = [0]
  for (let k = 1; k < run.length; k++) {
    const [a, b] = [run[k - 1] as number, run[k] as number]
    const step = Math.hypot((o.x[b] as number) - (o.x[a] as number), (o.y[b] as number) - (o.y[a] as number))
    out.push((out[k - 1] as number) + step)
  }
  return out
}

/** The outline itself, as a path to be filled. */
export function outlinePath(o: Outline): Path {
  const out: number[] = []
  for (let i = 0; i < o.x.length; i++)
    out.push(i === 0 ? OP.move : OP.line, o.x[i] as number, o.y[i] as number)
  out.push(OP.close)
  return out
}
