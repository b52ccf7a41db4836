import type { BodyModel } from '../body/model'
import { footprint } from '../contact/ground'
import type { Box, Camera, CarriedLoad } from '../document/plan'
import { loadPlace } from '../pose/mass'
import type { ReachedPose } from '../pose/types'
import { multiply } from '../space/rotation'
import { add, cross, distance, dot, norm, sub, UP, unit, type Vec3 } from '../space/vec'
import { aimDistance, NEAR, projectLine, projectShot, type Shot, shotOf } from './camera'
import { CARRIED_DENSITY, MARK, TEXT } from './constants'
import { drawFigure } from './figure'
import { drawGhost } from './ghost'
import { circle, type DisplayList, group, type Item, line, path, polygon, smoothLoop } from './list'
import { padFill } from './plumb'
import type { View } from './project'
import { silhouettesOf } from './silhouette'
import type { BodyPart, Volume } from './volume'
import { volumesOf } from './volumes'

export interface ShotInput {
  readonly camera: Camera
  readonly body: BodyModel
  readonly pose: ReachedPose
  readonly boxes: readonly Box[]
  readonly carried: readonly CarriedLoad[]
  readonly width: number
  readonly height: number
  readonly solid: boolean
  readonly mover: BodyPart
  /** Poses behind this one: onion skins. */
  readonly ghosts: readonly ReachedPose[]
  /** Shares of the weight by the pads' ids; without them the body alone is drawn. */
  readonly shares: ReadonlyMap<string, number> | null
  readonly title: string
}

/**
 * What the shot's camera sees of a frame, in perspective, by the painter of the other views. A sphere is drawn as
 * a circle of its size at its distance: true in the middle of the picture, at its edges as little off as a long
 * lens is.
 */
export function drawShot(input: ShotInput): DisplayList {
  const { camera, body, pose, width, height, shares, title } = input
  const shot = shotOf(camera, width, height)
  const view: View = {
    id: 'front',
    axes: { right: [1, 0, 0], up: [0, 1, 0], toward: [0, 0, 1] },
    scale: shot.focal,
    x0: width / 2,
    y0: height / 2,
    area: { x: 0, y: 0, width, height },
  }
  const shapes = silhouettesOf(inPicture(shot, volumesOf(body, pose)), view)
  const loads = input.carried.map((load): Box => {
    const size = Math.cbrt(load.mass / CARRIED_DENSITY)
    const at = loadPlace(load, pose.joints, pose.segments)
    return boxAt(add(at, [0, -size / 2, 0]), size)
  })
  const items: Item[] = [
    ...floor(shot, camera, body.stature),
    ...(shares ? pads(shot, pose, shares) : []),
    ...input.ghosts.flatMap((ghost) =>
      drawGhost(silhouettesOf(inPicture(shot, volumesOf(body, ghost)), view), {
        fill: 'shade',
        stroke: 'hairline',
      }),
    ),
    ...drawFigure(shapes, view, {
      solid: input.solid,
      mover: input.mover,
      among: [...input.boxes, ...loads].flatMap((box) => drawBlock(shot, box)),
    }),
    ...(shares ? plumb(shot, pose) : []),
  ]
  const words: Item = {
    kind: 'text',
    x: 22,
    y: TEXT.title + 9,
    text: title,
    size: TEXT.title,
    bold: false,
    anchor: 'start',
    ink: 'inkSoft',
    spacing: TEXT.titleSpacing,
  }
  return {
    width,
    height,
    title: 'The shot',
    desc: '',
    items: [group('shot', items, { clip: view.area }), words],
  }
}

/**
 * Volumes as the camera sees them: places and radii over their distance, depth as minus its logarithm, so that
 * near one place a step in depth is as long as one across. What reaches behind the camera is left out.
 */
function inPicture(shot: Shot, volumes: readonly Volume[]): Volume[] {
  return volumes.flatMap((volume): Volume[] => {
    const s = volume.spheres
    const spheres: number[] = []
    let far = 0
    for (let i = 0; i < s.length; i += 4) {
      const from = sub([s[i] as number, s[i + 1] as number, s[i + 2] as number], shot.position)
      const away = dot(from, shot.into)
      const r = s[i + 3] as number
      if (away - r < NEAR) return []
      far += away
      spheres.push(dot(from, shot.right) / away, dot(from, shot.up) / away, -Math.log(away), r / away)
    }
    far /= s.length / 4
    const { frame, pull } = volume
    const axes = axesToward(shot, [s[0] as number, s[1] as number, s[2] as number])
    return [
      {
        ...volume,
        spheres,
        bias: volume.bias / far,
        ...(frame ? { frame: multiply([...axes.right, ...axes.up, ...axes.toward], frame) } : {}),
        ...(pull
          ? { pull: [dot(axes.right, pull), dot(axes.up, pull), dot(axes.toward, pull)] as Vec3 }
          : {}),
      },
    ]
  })
}

/** Right, up and toward the camera as seen from a place: its tones turn with the ray that sees it. */
function axesToward({ position, right }: Shot, place: Vec3) {
  const toward = unit(sub(position, place))
  const across = cross(UP, toward)
  const level = norm(across) < 1e-6 ? right : unit(across)
  return { right: level, up: cross(toward, level), toward }
}

/** Lines of the floor a quarter of the stature apart around the aim, and the horizon where it is in the picture. */
function floor(shot: Shot, { aim, ...rest }: Camera, stature: number): Item[] {
  const step = stature / 4
  const reach = Math.ceil(Math.min(24, Math.max(8, (2 * aimDistance({ aim, ...rest })) / step)))
  const middle = [Math.round(aim[0] / step), Math.round(aim[2] / step)] as const
  const items: Item[] = []
  for (let k = -reach; k <= reach; k++) {
    const [x, z] = [(middle[0] + k) * step, (middle[1] + k) * step]
    const [x0, x1] = [(middle[0] - reach) * step, (middle[0] + reach) * step]
    const [z0, z1] = [(middle[1] - reach) * step, (middle[1] + reach) * step]
    for (const [a, b] of [
      [[x, 0, z0] as Vec3, [x, 0, z1] as Vec3],
      [[x0, 0, z] as Vec3, [x1, 0, z] as Vec3],
    ] as const) {
      const seen = projectLine(shot, a, b)
      if (seen)
        items.push(line(seen[0][0], seen[0][1], seen[1][0], seen[1][1], { stroke: 'hairline', width: 0.8 }))
    }
  }
  return items
}

function pads(shot: Shot, { pads: all }: ReachedPose, shares: ReadonlyMap<string, number>): Item[] {
  return all.flatMap((pad): Item[] => {
    const corners = pad.vertices.map((v) => projectShot(shot, v))
    const centre = projectShot(shot, pad.centre)
    if (!centre || corners.some((corner) => corner === null)) return []
    const at = (s: number) =>
      smoothLoop(
        corners.flatMap((corner) => {
          const [x, y] = corner as readonly [number, number, number]
          return [centre[0] + (x - centre[0]) * s, centre[1] + (y - centre[1]) * s]
        }),
      )
    const fill = padFill(shares.get(pad.id) ?? 0)
    return [
      path(at(1), { fill: 'paper', stroke: 'ink', width: 1.2 }),
      ...(fill > 0.02 ? [path(at(fill), { fill: 'weight' })] : []),
    ]
  })
}

function plumb(shot: Shot, { com }: ReachedPose): Item[] {
  const at = projectShot(shot, com)
  const seen = projectLine(shot, com, [com[0], 0, com[2]])
  if (!at || !seen) return []
  return [
    line(seen[0][0], seen[0][1], seen[1][0], seen[1][1], { stroke: 'weight', width: MARK.line }),
    circle(at[0], at[1], MARK.com, { fill: 'paper', stroke: 'weight', width: MARK.line }),
    circle(seen[1][0], seen[1][1], 3, { fill: 'weight' }),
  ]
}

const boxAt = (position: Vec3, size: number): Box => ({
  id: 'carried',
  name: '',
  position,
  size: [size, size, size],
  turn: 0,
  grip: 'normal',
})

/** The faces of a block that look at the camera, and how near its nearest corner is. */
function drawBlock(shot: Shot, box: Box): { depth: number; items: Item[] }[] {
  const bottom = box.position[1]
  const top = bottom + box.size[1]
  const foot = footprint(box)
  const corner = (k: number, y: number): Vec3 => {
    const [x, z] = foot[k % 4] as readonly [number, number]
    return [x, y, z]
  }
  const sides = [0, 1, 2, 3].map((k) => [
    corner(k, bottom),
    corner(k + 1, bottom),
    corner(k + 1, top),
    corner(k, top),
  ])
  const faces = [
    ...sides,
    [0, 1, 2, 3].map((k) => corner(k, top)),
    [3, 2, 1, 0].map((k) => corner(k, bottom)),
  ]
  const middle: Vec3 = [box.position[0], (bottom + top) / 2, box.position[2]]
  const items = faces.flatMap((face): Item[] => {
    const centre = face.reduce<Vec3>((sum, p) => add(sum, p), [0, 0, 0]).map((v) => v / 4) as unknown as Vec3
    const out = sub(centre, middle)
    if (dot(sub(shot.position, centre), out) <= 0) return []
    const seen = face.map((p) => projectShot(shot, p))
    // A face that reaches behind the camera is not drawn: the camera stands in it.
    if (seen.some((p) => p === null)) return []
    const points = seen.flatMap((p) => [
      (p as readonly number[])[0] as number,
      (p as readonly number[])[1] as number,
    ])
    return [
      path(polygon(points), { fill: 'block', alpha: 0.85 }),
      path(polygon(points), { stroke: 'ink', width: 1.2 }),
    ]
  })
  const nearest = Math.min(
    ...faces.flat().map((p) => Math.max(NEAR, dot(sub(p, shot.position), shot.into))),
    Math.max(NEAR, distance(middle, shot.position)),
  )
  return [{ depth: -Math.log(nearest) * shot.focal, items }]
}
