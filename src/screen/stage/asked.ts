import { drawGhost } from '../../draw/ghost'
import type { StageInput } from '../../draw/input'
import { type DisplayList, group, type Item, line } from '../../draw/list'
import { project } from '../../draw/project'
import { silhouettesOf } from '../../draw/silhouette'
import { pelvisVolume } from '../../draw/trunk-volumes'
import { pelvisRotation } from '../../pose/anchor'
import { distance, type Vec3 } from '../../space/vec'

/**
 * The list with the asked pelvis as a thin outline where what is planted keeps it short of that, joined to it by a
 * line: what was wanted against what the planted limbs allow.
 */
export function withAskedPelvis(list: DisplayList, { layout, body, pose }: StageInput): DisplayList {
  const { asked, joints } = pose
  const origin: Vec3 = [asked['pelvis.x'], asked['pelvis.y'], asked['pelvis.z']]
  const least = pose.limits.length > 0 ? WORTH_SHOWING : WORTH_SHOWING_ALONE
  if (distance(origin, joints.midHip) < least * body.stature) return list
  const rotation = pelvisRotation(asked['pelvis.turn'], asked['pelvis.list'], asked['pelvis.tilt'])
  const items = layout.views.map((view): Item => {
    const shapes = silhouettesOf([pelvisVolume(body, { rotation, origin, com: origin })], view)
    const [x1, y1] = project(view, joints.midHip)
    const [x2, y2] = project(view, origin)
    return group(
      `asked-${view.id}`,
      [
        ...drawGhost(shapes, { stroke: 'ghost', width: 1.2, dash: [5, 4] }),
        line(x1, y1, x2, y2, { stroke: 'ghost', width: 1 }),
      ],
      { title: 'Where the pelvis was asked to be', clip: view.area },
    )
  })
  return { ...list, items: [...list.items, ...items] }
}

/**
 * Nearer than this over the stature the pelvis is where it was asked to be; without a limb that stops it a
 * drag over planted knees always asks for a little more than the thighs give.
 */
const WORTH_SHOWING = 0.012
const WORTH_SHOWING_ALONE = 0.06
