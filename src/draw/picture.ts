import type { BodyModel } from '../body/model'
import type { Box, CarriedLoad } from '../document/plan'
import type { ReachedPose } from '../pose/types'
import { dot } from '../space/vec'
import { boxFace, drawBox } from './boxes'
import { drawCarried } from './carried'
import { drawFigure } from './figure'
import { type Bounds, boundsOf } from './layout'
import { type DisplayList, group, type Item, line } from './list'
import { axesOf, type Facing, PLAIN, type View, type ViewId } from './project'
import { silhouettesOf } from './silhouette'
import type { BodyPart } from './volume'
import { volumesOf } from './volumes'

export interface PictureOptions {
  readonly body: BodyModel
  readonly pose: ReachedPose
  readonly boxes?: readonly Box[]
  readonly carried?: readonly CarriedLoad[]
  readonly view?: ViewId
  readonly facing?: Facing
  readonly width: number
  readonly height: number
  /** What has to fit; the pose alone where it is left out. Give a whole take's, so that its pictures share a scale. */
  readonly bounds?: Bounds
  readonly mover?: BodyPart
  readonly solid?: boolean
  readonly title?: string
}

/** A small picture of one pose on its ground, without text: for sheets, stances and thumbnails. */
export function drawPicture(options: PictureOptions): DisplayList {
  const {
    body,
    pose,
    boxes = [],
    view: id = 'front',
    facing = PLAIN,
    width,
    height,
    title = 'A pose',
  } = options
  const bounds = options.bounds ?? boundsOf(body, [pose], boxes)
  const view = fitted(id, facing, bounds, width, height)
  const figure = drawFigure(silhouettesOf(volumesOf(body, pose), view), view, {
    solid: options.solid ?? false,
    ...(options.mover ? { mover: options.mover } : {}),
    among: [
      ...boxes.map((box) => boxFace(box, view)).map((face) => ({ depth: face.depth, items: drawBox(face) })),
      ...(options.carried ?? []).map((load) => drawCarried(load, pose, view)),
    ],
  })
  // Flesh is flat where it meets the ground.
  const above = { x: 0, y: 0, width, height: Math.max(0, view.y0) }
  const items: Item[] =
    id === 'floor'
      ? figure
      : [
          group('body', figure, { clip: above }),
          line(0, view.y0, width, view.y0, { stroke: 'ink', width: 1.2 }),
        ]
  return { width, height, title, desc: '', items }
}

/** Margin round a small picture, px. */
const EDGE = 5

function fitted(id: ViewId, facing: Facing, { min, max }: Bounds, width: number, height: number): View {
  const axes = axesOf(id, facing)
  const middle = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2] as const
  const size = [max[0] - min[0], max[1] - min[1], max[2] - min[2]] as const
  const across = Math.abs(dot(axes.right, size))
  const upright = Math.abs(dot(axes.up, size))
  const scale = Math.max(1e-6, Math.min((width - 2 * EDGE) / across, (height - 2 * EDGE) / upright))
  return {
    id,
    axes,
    scale,
    x0: width / 2 - scale * dot(axes.right, middle),
    y0: id === 'floor' ? height / 2 + scale * dot(axes.up, middle) : height - EDGE,
    area: { x: 0, y: 0, width, height },
  }
}
