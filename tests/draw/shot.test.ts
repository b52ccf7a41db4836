import { expect, it } from 'vitest'
import { makeBody } from '../../src/body/model'
import type { Camera, Take } from '../../src/document/plan'
import { distanced, firstCamera, projectShot, shotOf } from '../../src/draw/camera'
import { curveFrame, drawCurves } from '../../src/draw/curves'
import type { DisplayList, Item } from '../../src/draw/list'
import { PALETTES } from '../../src/draw/palette'
import { drawShot } from '../../src/draw/shot'
import { toSvg } from '../../src/draw/svg'
import { makeMotion } from '../../src/pose/between'
import { capstone } from '../support/capstone'

const plan = capstone()
const take = plan.takes[0] as Take
const body = makeBody(plan.body)
const pose = makeMotion(body, take).poseAt(0)

const shotWith = (camera: Camera): DisplayList =>
  drawShot({
    camera,
    body,
    pose,
    boxes: plan.ground.boxes,
    carried: [],
    width: 960,
    height: 540,
    solid: false,
    mover: 'legL',
    ghosts: [],
    shares: new Map(pose.pads.map(({ id }) => [id, 0.2])),
    title: 'SHOT',
  })

const flat = (items: readonly Item[]): Item[] =>
  items.flatMap((item) => (item.kind === 'group' ? flat(item.items) : [item]))

it('draws the body, the block, the pads and the plumb where the camera has them', () => {
  const camera = firstCamera(pose.com, body.stature)
  const items = flat(shotWith(camera).items)
  const [x, y] = projectShot(shotOf(camera, 960, 540), pose.com) as readonly [number, number, number]
  expect(items.some((item) => item.kind === 'circle' && item.x === x && item.y === y)).toBe(true)
  expect(items.filter((item) => item.kind === 'path' && item.fill === 'block').length).toBe(3)
  expect(items.some((item) => item.kind === 'path' && item.fill === 'toneR')).toBe(true)
})

it('twice as far he is half as tall, as pinhole geometry has it, but for his depth: within 6 %', () => {
  const near = firstCamera(pose.com, body.stature)
  const far = distanced(near, 2)
  const height = (camera: Camera) => {
    const ys = flat(shotWith(camera).items).flatMap((item) =>
      item.kind === 'path' && (item.fill === 'toneL' || item.fill === 'toneR') && item.stroke === undefined
        ? item.path.filter((_, i) => i % 3 === 2)
        : [],
    )
    return Math.max(...ys) - Math.min(...ys)
  }
  expect(height(far) / height(near)).toBeGreaterThan(0.5 * 0.94)
  expect(height(far) / height(near)).toBeLessThan(0.5 * 1.06)
})

it('stays a drawing wherever the camera stands, in the body and in the block too', () => {
  for (const position of [pose.com, [0, 0.2, 0.7], [0, 0, 0], [9, 9, 9]] as const) {
    const list = shotWith({ position, aim: [0.01, 0.3, 0.02], lens: 24 })
    expect(toSvg(list, { palette: PALETTES.paper })).toContain('</svg>')
  }
})

it('load curves have a band a limb, gaps where nothing is known, and give the frame under a place', () => {
  const input = {
    width: 400,
    length: 101,
    frame: 50,
    firstFrame: 1001,
    keys: [0, 50, 100],
    bands: [
      { name: 'leg L', motion: [0.5, 0.4, null, 0.2], still: [0.5, 0.5, 0.5, 0.5], most: 0.5, ink: 'weight' },
      { name: 'push', motion: [0, 0, null, 0.1], still: [null, null, null, null], most: 0.1, ink: 'ink' },
    ],
    title: 'Loads',
  } as const
  const items = flat(drawCurves(input).items)
  expect(items.filter((item) => item.kind === 'path' && item.fill === 'weight')).toHaveLength(2)
  expect(items.filter((item) => item.kind === 'path' && item.fill === 'ink')).toHaveLength(2)
  const now = items.at(-1)
  if (now?.kind !== 'line') throw new Error('the last thing drawn is the frame’s line')
  expect(curveFrame(input, now.x1)).toBe(50)
  expect(curveFrame(input, -99)).toBe(0)
  expect(curveFrame(input, 9999)).toBe(100)
})
