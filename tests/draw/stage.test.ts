import { describe, expect, test } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import { makeBody } from '../../src/body/model'
import { BODY_LIMITS, type BodySpec, SHAPES } from '../../src/body/spec'
import { handlesNear, partAt } from '../../src/draw/hits'
import type { StageWeights } from '../../src/draw/input'
import { boxOf, overlap } from '../../src/draw/labels'
import { type Group, type Item, type LineItem, OP, type TextItem } from '../../src/draw/list'
import { PALETTES } from '../../src/draw/palette'
import { drawPicture } from '../../src/draw/picture'
import { project, type View } from '../../src/draw/project'
import { drawStage } from '../../src/draw/stage'
import { toSvg } from '../../src/draw/svg'
import { handlesOf } from '../../src/pose/handles'
import { bodyOf, COURSE, fistOnCourse, STANCE_IDS, stageOf, stancePose } from './fixture'

const mason = bodyOf('mason')
const demo = stageOf(mason, fistOnCourse(mason), { boxes: [COURSE], move: [-0.11, 0.02] })

const flat = (items: readonly Item[]): Exclude<Item, Group>[] =>
  items.flatMap((item) => (item.kind === 'group' ? flat(item.items) : [item]))
const texts = (items: readonly Item[]): TextItem[] => flat(items).filter((item) => item.kind === 'text')
const named = (items: readonly Item[], name: string): Group[] =>
  items.flatMap((item) =>
    item.kind === 'group' ? [...(item.name === name ? [item] : []), ...named(item.items, name)] : [],
  )

describe('stage', () => {
  test('the same input gives the same list', () => {
    expect(drawStage(demo)).toEqual(drawStage(demo))
  })

  test('says what each limb carries, in per cent and kilograms, at 16 and 13 px', () => {
    const { list } = drawStage(demo)
    for (const { id, share, kg } of demo.weights?.limbs ?? []) {
      const [load] = named(list.items, `load-${id}`)
      const words = texts(load?.items ?? [])
      expect(words.map((t) => [t.text, t.size, t.bold])).toEqual([
        [`${Math.round(share * 100)}\u00a0%`, 16, true],
        [`${Math.round(kg)}\u00a0kg`, 13, false],
      ])
    }
  })

  test('no text is smaller than 13 px', () => {
    for (const t of texts(drawStage(demo).list.items)) expect(t.size).toBeGreaterThanOrEqual(13)
  })

  const crowded = [
    ['fist on a course', demo],
    ...STANCE_IDS.map((id) => [id, stageOf(mason, stancePose(mason, id), { loadRows: 2 })] as const),
    [
      'narrow',
      stageOf(mason, fistOnCourse(mason), {
        boxes: [COURSE],
        width: 390,
        height: 560,
        arrangement: { kind: 'stack' },
      }),
    ],
  ] as const
  test.each(crowded)('labels lie inside the drawing and not on each other: %s', (_, input) => {
    const { list } = drawStage(input)
    const boxes = texts(list.items).map((t) => ({ text: t.text, box: boxOf(t) }))
    for (const [i, a] of boxes.entries()) {
      expect(a.box.x, a.text).toBeGreaterThanOrEqual(0)
      expect(a.box.x + a.box.width, a.text).toBeLessThanOrEqual(list.width)
      for (const b of boxes.slice(i + 1))
        expect(overlap(a.box, b.box), `${a.text} on ${b.text}`).toBeLessThan(1)
    }
  })

  test('the plumb falls unbroken from the mark in the front view to its point on the floor', () => {
    const { list } = drawStage(demo)
    const [front, , floor] = demo.layout.views as [View, View, View]
    const [x, y] = project(front, demo.pose.com)
    const [, end] = project(floor, [demo.pose.com[0], 0, demo.pose.com[2]])
    const lines = flat(named(list.items, 'plumb-front')).filter((i): i is LineItem => i.kind === 'line')
    const plumb = lines.find((l) => Math.abs(l.x1 - x) < 1e-9 && Math.abs(l.x2 - x) < 1e-9)
    expect([plumb?.y1, plumb?.y2, plumb?.dash]).toEqual([y, end, undefined])
  })

  test('the warm colour is only in what means weight', () => {
    const body = drawStage({ ...demo, show: { loads: false }, mover: undefined as never })
    expect(JSON.stringify(body.list.items)).not.toContain('"weight"')
    expect(JSON.stringify(drawStage(demo).list.items)).toContain('"weight"')
  })

  test('a pad is filled over the share of its area that it carries of the weight', () => {
    const shares = demo.pose.pads.map((pad, i) => ({ id: pad.id, share: 0.4 - 0.08 * i }))
    const weights = { ...(demo.weights as StageWeights), contacts: shares }
    const [floor] = named(drawStage({ ...demo, weights }).list.items, 'floor')
    const fills = flat(floor?.items ?? []).filter((i) => i.kind === 'path' && i.fill === 'weight')
    const pads = flat(floor?.items ?? []).filter((i) => i.kind === 'path' && i.fill === 'paper')
    expect(pads.length).toBe(demo.pose.pads.length)
    const width = (item: Item | undefined) => {
      if (item?.kind !== 'path') throw new Error('not a path')
      const xs = item.path.filter((_, k) => item.path[k - 1] === OP.move || item.path[k - 5] === OP.cubic)
      return Math.max(...xs) - Math.min(...xs)
    }
    for (const [i, { share }] of shares.entries())
      expect((width(fills[i]) / width(pads[i])) ** 2).toBeCloseTo(share, 6)
  })

  test('everything can be switched off but the body', () => {
    const none = { loads: false, lines: false, letters: false, padLabels: false, floorBody: false }
    const { list } = drawStage({ ...demo, show: none })
    expect(texts(list.items).map((t) => t.text)).toEqual(['FRONT', 'SIDE, from his right', 'FLOOR'])
  })

  test('the solid silhouette has one ink', () => {
    const { list } = drawStage({ ...demo, boxes: [], show: { solid: true } })
    const body = flat(named(list.items, 'body'))
    expect(new Set(body.map((i) => (i.kind === 'path' ? i.fill : i.kind)))).toEqual(new Set(['ink']))
  })

  test('his right is the darker tone in every view that shows both', () => {
    for (const palette of [PALETTES.paper, PALETTES.slate, PALETTES.print]) {
      const light = (c: string) =>
        [1, 3, 5].reduce((sum, i) => sum + Number.parseInt(c.slice(i, i + 2), 16), 0)
      expect(light(palette.toneR)).toBeLessThan(light(palette.toneL))
    }
    const { list } = drawStage(demo)
    const fills = (name: string) =>
      new Set(flat(named(list.items, name)).map((i) => (i.kind === 'path' ? i.fill : '')))
    expect([...fills('front')]).toEqual(expect.arrayContaining(['toneL', 'toneR']))
  })
})

describe('hits', () => {
  const handles = handlesOf(mason, demo.pose, [])
  const { hits } = drawStage({ ...demo, handles })

  test('every handle is placed in every view', () => {
    expect(hits.handles.length).toBe(3 * handles.length)
    for (const h of hits.handles) {
      const view = demo.layout.views.find((v) => v.id === h.view) as View
      expect(project(view, h.at).slice(0, 2)).toEqual([h.x, h.y])
    }
  })

  test('a limb is found under a point, and nothing beside the body', () => {
    for (const h of hits.handles.filter((handle) => handle.view === 'front' && !handle.covered))
      if (/^(knee|elbow)/.test(h.id)) expect(partAt(hits, 'front', h.x, h.y)).toBe(h.limb)
    expect(partAt(hits, 'front', 3, 3)).toBeNull()
    expect(partAt(hits, 'side', 3, 3)).toBeNull()
  })

  test('the far knee is covered from the side', () => {
    const side = (id: string) => hits.handles.find((h) => h.view === 'side' && h.id === id)
    expect([side('kneeL')?.covered, side('kneeR')?.covered]).toEqual([true, false])
  })

  test('handles near a point come nearest first', () => {
    const knee = hits.handles.find((h) => h.view === 'front' && h.id === 'kneeR')
    const near = handlesNear(hits, (knee?.x ?? 0) + 2, knee?.y ?? 0, 12)
    expect(near[0]?.id).toBe('kneeR')
  })
})

describe('extreme bodies', () => {
  const spec = BUILDS[0]?.spec as BodySpec
  const all = (value: number) => Object.fromEntries(SHAPES.map((s) => [s, value])) as BodySpec['bulk']
  const [low, high] = BODY_LIMITS.factor
  const extremes: readonly (readonly [string, BodySpec])[] = [
    ['tiny', { ...spec, stature: BODY_LIMITS.stature[0], mass: 1, hipWidth: 0.02, shoulderWidth: 0.05 }],
    ['huge', { ...spec, stature: BODY_LIMITS.stature[1], mass: 2e5, hipWidth: 3, shoulderWidth: 8 }],
    ['needle', { ...spec, bulk: all(low) }],
    ['ball', { ...spec, bulk: all(high) }],
    ['stubs', { ...spec, length: { ...spec.length, thigh: low, shank: low, upperArm: low, forearm: low } }],
    ['wide', { ...spec, hipWidth: 1.5 * spec.stature, shoulderWidth: 1.5 * spec.stature }],
    ['narrow', { ...spec, hipWidth: 0.01 * spec.stature, shoulderWidth: 0.01 * spec.stature }],
  ]

  test.each(extremes)('%s: every number is finite', (_, extreme) => {
    const body = makeBody(extreme)
    for (const id of STANCE_IDS) {
      const { list } = drawStage(stageOf(body, stancePose(body, id)))
      expect(() => toSvg(list, { palette: PALETTES.paper })).not.toThrow()
    }
  })

  test('a small picture of any stance is finite and holds no text', () => {
    for (const [, extreme] of extremes) {
      const body = makeBody(extreme)
      const list = drawPicture({
        body,
        pose: stancePose(body, 'tall-kneel'),
        width: 120,
        height: 120,
        view: 'side',
      })
      expect(texts(list.items)).toEqual([])
      expect(() => toSvg(list, { palette: PALETTES.paper })).not.toThrow()
    }
  })
})
