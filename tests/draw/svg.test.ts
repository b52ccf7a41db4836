// @vitest-environment jsdom
import { describe, expect, test } from 'vitest'
import { circle, type DisplayList, group, type Item, line, OP, path, polygon } from '../../src/draw/list'
import { type PaintTarget, paintList } from '../../src/draw/paint'
import { PALETTES } from '../../src/draw/palette'
import { drawStage } from '../../src/draw/stage'
import { pathData, toSvg } from '../../src/draw/svg'
import { bodyOf, COURSE, fistOnCourse, stageOf } from './fixture'

const mason = bodyOf('mason')
const stage = drawStage(stageOf(mason, fistOnCourse(mason), { boxes: [COURSE] })).list
const parser = new DOMParser()
const parse = (svg: string) => parser.parseFromString(svg, 'image/svg+xml')
const of = (...items: Item[]): DisplayList => ({ width: 100, height: 50, title: 'a', desc: 'b', items })

/** Stands in for a canvas: writes down what it is asked to draw. */
function recorder() {
  const calls: string[] = []
  const note =
    (name: string) =>
    (...args: unknown[]) => {
      for (const a of args)
        if (typeof a === 'number' && !Number.isFinite(a)) throw new Error(`${name}(${args})`)
      calls.push(name)
    }
  const target = {
    fillStyle: '',
    strokeStyle: '',
    lineWidth: 1,
    lineCap: 'butt',
    lineJoin: 'miter',
  } as Record<string, unknown>
  Object.assign(target, { font: '', textAlign: 'left', globalAlpha: 1 })
  for (const name of [
    ...[
      'save',
      'restore',
      'beginPath',
      'moveTo',
      'lineTo',
      'quadraticCurveTo',
      'bezierCurveTo',
      'arc',
      'closePath',
    ],
    ...['clip', 'fill', 'stroke', 'fillRect', 'fillText', 'strokeText', 'setLineDash'],
  ])
    target[name] = note(name)
  return { target: target as unknown as PaintTarget, calls }
}

describe('SVG', () => {
  test('a whole stage is well formed, named and described', () => {
    const document = parse(toSvg(stage, { palette: PALETTES.paper }))
    expect(document.querySelector('parsererror')).toBeNull()
    const root = document.documentElement
    expect(root.getAttribute('role')).toBe('img')
    const ids = (root.getAttribute('aria-labelledby') as string).split(' ')
    expect(ids.map((id) => document.getElementById(id)?.textContent)).toEqual([stage.title, stage.desc])
  })

  test('has no style element or attribute, no script, no current colour, and a class for every ink', () => {
    const svg = toSvg(stage, { palette: PALETTES.paper })
    const document = parse(svg)
    expect(svg).not.toMatch(/currentColor|<style|<script|style=|href|NaN|Infinity|undefined/)
    for (const e of document.querySelectorAll('path,circle,line,text')) {
      const fill = e.getAttribute('fill')
      if (fill !== null && fill !== 'none') expect(e.getAttribute('class')).toContain('fill-')
      if (e.getAttribute('stroke') && e.tagName !== 'text')
        expect(e.getAttribute('class')).toContain('stroke-')
    }
  })

  test('text and titles cannot break out', () => {
    const nasty = `<b>"&'\u0000\u0008]]>`
    const text: Item = {
      kind: 'text',
      x: 1,
      y: 2,
      text: nasty,
      size: 13,
      bold: false,
      anchor: 'start',
      ink: 'ink',
    }
    const svg = toSvg(
      { ...of(group(nasty, [text], { title: nasty })), title: nasty },
      { palette: PALETTES.paper },
    )
    const document = parse(svg)
    expect(document.querySelector('parsererror')).toBeNull()
    expect(document.querySelector('text')?.textContent).toBe(`<b>"&']]>`)
    expect(document.querySelector('b')).toBeNull()
  })

  test('arcs: a full turn is two halves, a part is one', () => {
    expect(pathData([OP.arc, 10, 10, 5, 0, 2 * Math.PI])).toBe('M15 10A5 5 0 0 1 5 10A5 5 0 0 1 15 10')
    expect(pathData([OP.move, 0, 0, OP.arc, 10, 10, 5, Math.PI / 2, 0])).toBe('M0 0L10 15A5 5 0 0 0 15 10')
  })

  test('numbers that are not finite are refused', () => {
    expect(() => toSvg(of(circle(Number.NaN, 0, 1, { fill: 'ink' })), { palette: PALETTES.paper })).toThrow(
      /finite/,
    )
  })

  test('every palette resolves every ink', () => {
    for (const palette of Object.values(PALETTES))
      expect(toSvg(stage, { palette })).not.toMatch(/(fill|stroke)="(undefined)?"/)
  })
})

describe('canvas', () => {
  test('paints the same primitives as the SVG', () => {
    const { target, calls } = recorder()
    paintList(stage, target, { palette: PALETTES.paper })
    const document = parse(toSvg(stage, { palette: PALETTES.paper }))
    const count = (name: string) => calls.filter((c) => c === name).length
    const shapes = [
      ...document.querySelectorAll('g path, g circle, g line, svg > path, svg > circle, svg > line'),
    ]
    expect(count('beginPath') - count('clip')).toBe(shapes.length)
    expect(count('fill')).toBe(shapes.filter((e) => e.getAttribute('fill') !== 'none').length)
    expect(count('stroke')).toBe(shapes.filter((e) => e.hasAttribute('stroke')).length)
    expect(count('fillText')).toBe(document.querySelectorAll('text').length)
    expect(count('strokeText')).toBe(document.querySelectorAll('text[stroke]').length)
    expect(count('clip')).toBe(document.querySelectorAll('clipPath').length)
    expect(count('save')).toBe(count('restore'))
  })

  test('leaves alpha and dashes as the next item needs them', () => {
    const seen: [number, string, unknown[]][] = []
    const { target } = recorder()
    let dash: unknown[] = []
    target.setLineDash = (d) => {
      dash = d
    }
    target.stroke = () => {
      seen.push([target.globalAlpha, String(target.strokeStyle), dash])
    }
    const list = of(
      path(polygon([0, 0, 9, 0, 9, 9]), { stroke: 'weight', dash: [3, 1], alpha: 0.5 }),
      line(0, 0, 5, 5, { stroke: 'ink' }),
    )
    paintList(list, target, { palette: PALETTES.paper })
    expect(seen).toEqual([
      [0.5, PALETTES.paper.weight, [3, 1]],
      [1, PALETTES.paper.ink, []],
    ])
  })
})
