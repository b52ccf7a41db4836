import { type Bounds, boundsOf } from '../../draw/layout'
import { type DisplayList, type Item, path, rectangle } from '../../draw/list'
import { paintList } from '../../draw/paint'
import type { Palette } from '../../draw/palette'
import { drawPicture } from '../../draw/picture'
import { toSvg } from '../../draw/svg'
import { keyPosesOf } from '../../plan/key-poses'
import { loadsAt } from '../../pose/between'
import { percentText } from '../../sheet/format'
import { sheetLimbs } from '../../sheet/limbs'
import { weighPose } from '../../weigh/pose'
import type { Desk } from '../desk.svelte'

/** A strip of a take's key poses: for each its picture, its frame and what each limb carries. */
export function stripOf(desk: Desk): DisplayList[] {
  const { plan, take, body, motion } = desk
  const keys = keyPosesOf(take).slice(0, MOST)
  const poses = keys.map((frame) => motion.poseAt(frame))
  const bounds: Bounds = boundsOf(body, poses, plan.ground.boxes)
  const limbs = sheetLimbs(take)
  return keys.map((frame, i) => {
    const pose = poses[i] as (typeof poses)[number]
    const { weighing } = weighPose(plan.ground, plan.gravity, body.stature, pose, plan)
    const label = String(plan.firstFrame + frame)
    const picture = drawPicture({
      body,
      pose,
      boxes: plan.ground.boxes,
      carried: loadsAt(take, frame),
      width: WIDTH,
      height: HEIGHT,
      bounds,
      mover: take.mover.limb,
      title: `Key pose at frame ${label}`,
    })
    const loads = limbs.flatMap(({ id, title }) => {
      const load = weighing.limbs.find((limb) => limb.id === id)
      return load ? [`${title} ${percentText(load.vertical)}`] : []
    })
    const lines = [label, ...loads]
    const texts = lines.map(
      (text, row): Item => ({
        kind: 'text',
        x: 6,
        y: HEIGHT + 18 + row * LINE,
        text,
        size: row === 0 ? 16 : 13,
        bold: row === 0,
        anchor: 'start',
        ink: row === 0 ? 'ink' : 'inkSoft',
      }),
    )
    const height = HEIGHT + 10 + (1 + limbs.length) * LINE + 6
    const frameLine = path(rectangle({ x: 0.5, y: 0.5, width: WIDTH - 1, height: height - 1 }), {
      stroke: 'hairline',
      width: 1,
    })
    return { ...picture, height, items: [frameLine, ...picture.items, ...texts] }
  })
}

const WIDTH = 190
const HEIGHT = 190
const LINE = 18
/** More key poses than this don't fit a picture that can still be read. */
const MOST = 24
/** Pictures in a row. */
const ACROSS = 8

/** Where each list of a strip goes, and how large the whole is, px. */
function placed(lists: readonly DisplayList[]) {
  const height = Math.max(1, ...lists.map((list) => list.height))
  const across = Math.max(1, Math.min(ACROSS, lists.length))
  return {
    width: across * WIDTH,
    height: Math.ceil(lists.length / across) * height,
    at: lists.map((_, i) => ({ x: (i % across) * WIDTH, y: Math.floor(i / across) * height })),
  }
}

/** Lists side by side as one SVG document. */
export function listsSvg(lists: readonly DisplayList[], palette: Palette): string {
  const { width, height, at } = placed(lists)
  if (lists.length === 1) return toSvg(lists[0] as DisplayList, { palette })
  const inner = lists.map((list, i) => {
    const { x, y } = at[i] as { x: number; y: number }
    return toSvg(list, { palette, prefix: `pose-${i}` }).replace('<svg ', `<svg x="${x}" y="${y}" `)
  })
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">${inner.join('')}</svg>`
}

/** Lists side by side as a PNG, so many pixels to one of the drawing. */
export async function listsPng(
  lists: readonly DisplayList[],
  palette: Palette,
  font: string,
  ratio = 2,
): Promise<Blob> {
  const single = lists.length === 1 ? lists[0] : undefined
  const { width, height, at } = single
    ? { width: single.width, height: single.height, at: [{ x: 0, y: 0 }] }
    : placed(lists)
  const canvas = document.createElement('canvas')
  canvas.width = Math.round(width * ratio)
  canvas.height = Math.round(height * ratio)
  const target = canvas.getContext('2d')
  if (target === null) throw new Error('this browser gives no canvas to draw on')
  for (const [i, list] of lists.entries()) {
    const { x, y } = at[i] as { x: number; y: number }
    target.setTransform(ratio, 0, 0, ratio, x * ratio, y * ratio)
    paintList(list, target, { palette, font })
  }
  return new Promise((done, failed) => {
    canvas.toBlob(
      (blob) => (blob ? done(blob) : failed(new Error('the picture could not be made'))),
      'image/png',
    )
  })
}
