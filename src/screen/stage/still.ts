import type { View, ViewId } from '../../draw/project'

/**
 * A picture laid under a view to match a pose to. It belongs to this page, not to the plan: it is gone when
 * the page is closed.
 */
export interface Still {
  readonly image: CanvasImageSource
  /** px */
  readonly width: number
  readonly height: number
  readonly view: ViewId
  /** Where its upper left corner lies: to the right and up in the view, m. */
  readonly corner: readonly [right: number, up: number]
  readonly metresPerPixel: number
  /** 0 … 1 */
  readonly opacity: number
  readonly mirrored: boolean
  /** Said in its corner: a file name or a frame. */
  readonly label: string
}

/** What the next press on the stage does to the picture under a view. */
export type StillTask =
  | { readonly kind: 'move' }
  | { readonly kind: 'ground' }
  | { readonly kind: 'measure'; readonly points: readonly (readonly [number, number])[] }

/** A place of a view's plane, right and up, m. */
export const planeAt = (view: View, x: number, y: number): readonly [number, number] => [
  (x - view.x0) / view.scale,
  (view.y0 - y) / view.scale,
]

/** A picture as it first lies: as high as its view, in its middle. */
export function layStill(picture: Picture, view: View): Still {
  const { area, scale } = view
  const fit = Math.min(area.width / picture.width, area.height / picture.height)
  const metresPerPixel = fit / scale
  const [middle, upper] = planeAt(
    view,
    area.x + area.width / 2,
    area.y + (area.height - picture.height * fit) / 2,
  )
  return {
    ...picture,
    view: view.id,
    corner: [middle - (picture.width * metresPerPixel) / 2, upper],
    metresPerPixel,
    opacity: 0.5,
    mirrored: false,
  }
}

export type Picture = Pick<Still, 'image' | 'width' | 'height' | 'label'>

/** The picture scaled about its first point so that two of its points are so far apart. */
export function scaleStill(
  still: Still,
  [a, b]: readonly [readonly [number, number], readonly [number, number]],
  metres: number,
): Still {
  const now = Math.hypot(b[0] - a[0], b[1] - a[1])
  if (!(now > 0) || !(metres > 0)) return still
  const s = metres / now
  return {
    ...still,
    metresPerPixel: still.metresPerPixel * s,
    corner: [a[0] + (still.corner[0] - a[0]) * s, a[1] + (still.corner[1] - a[1]) * s],
  }
}

export const moveStill = (still: Still, right: number, up: number): Still => ({
  ...still,
  corner: [still.corner[0] + right, still.corner[1] + up],
})

/** Paints a picture under its view, within the view's part of the drawing. */
export function paintStill(still: Still, view: View, target: CanvasRenderingContext2D): void {
  const { area, scale, x0, y0 } = view
  const width = still.width * still.metresPerPixel * scale
  const height = still.height * still.metresPerPixel * scale
  target.save()
  target.beginPath()
  target.rect(area.x, area.y, area.width, area.height)
  target.clip()
  target.globalAlpha = still.opacity
  target.translate(x0 + still.corner[0] * scale, y0 - still.corner[1] * scale)
  if (still.mirrored) {
    target.translate(width, 0)
    target.scale(-1, 1)
  }
  target.drawImage(still.image, 0, 0, width, height)
  target.restore()
}

/** Marks the points that were clicked so far, and says what the picture is. */
export function markStill(
  still: Still,
  task: StillTask | null,
  view: View,
  target: CanvasRenderingContext2D,
  inks: { readonly ink: string; readonly paper: string; readonly font: string },
): void {
  const { area } = view
  target.save()
  target.font = `13px ${inks.font}`
  target.lineWidth = 4
  target.strokeStyle = inks.paper
  target.fillStyle = inks.ink
  const [x, y] = [area.x + LABEL.edge, area.y + area.height - LABEL.edge]
  target.strokeText(still.label, x, y)
  target.fillText(still.label, x, y)
  const points = task?.kind === 'measure' ? task.points : []
  for (const [right, up] of points) {
    const [px, py] = [view.x0 + right * view.scale, view.y0 - up * view.scale]
    for (const [width, ink] of [
      [5, inks.paper],
      [2, inks.ink],
    ] as const) {
      target.beginPath()
      target.moveTo(px - LABEL.cross, py)
      target.lineTo(px + LABEL.cross, py)
      target.moveTo(px, py - LABEL.cross)
      target.lineTo(px, py + LABEL.cross)
      target.lineWidth = width
      target.strokeStyle = ink
      target.stroke()
    }
  }
  target.restore()
}

/** How far the label stands from its view's corner, and half the length of a cross, px. */
const LABEL = { edge: 22, cross: 8 } as const

/** Reads a picture file, unless it is none, is damaged, or would fill the memory: then it says why. */
export async function readPicture(file: Blob & { readonly name?: string }): Promise<PictureRead> {
  const label = (file.name ?? '').replace(/\.[^.]*$/, '')
  const refused = (why: string) =>
    ({ ok: false, why: `${file.name || 'The picture'} can’t be shown: ${why}.` }) as const
  const address = URL.createObjectURL(file)
  try {
    const { PICTURE_LIMITS, pictureHead } = await import('../../export/picture-head')
    const start = await file.slice(0, PICTURE_LIMITS.head).arrayBuffer()
    const head = pictureHead(new Uint8Array(start), file.size)
    if (!head.ok) return refused(head.message)
    const image = new Image()
    image.src = address
    await image.decode()
    const { naturalWidth: width, naturalHeight: height } = image
    return { ok: true, picture: { image, width, height, label } }
  } catch {
    return refused('it is damaged, or was moved')
  } finally {
    URL.revokeObjectURL(address)
  }
}

export type PictureRead =
  | { readonly ok: true; readonly picture: Picture }
  | { readonly ok: false; readonly why: string }

/** The first picture among files that were pasted or dropped. */
export const pictureIn = (files: FileList | undefined): File | undefined =>
  [...(files ?? [])].find(({ type }) => type.startsWith('image/'))
