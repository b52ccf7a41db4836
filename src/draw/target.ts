import type { Vec3 } from '../space/vec'
import { MARK, TEXT } from './constants'
import type { StageLayout } from './layout'
import { circle, type DisplayList, type Item, line } from './list'
import { project } from './project'

/**
 * The list with a place marked in every view: a ring with a cross, and the way there from where the limb is; in ink
 * since it is no weight.
 */
export function withTarget(
  list: DisplayList,
  layout: StageLayout,
  { at, from }: { readonly at: Vec3; readonly from: Vec3 },
): DisplayList {
  const items = layout.views.flatMap((view): Item[] => {
    const [x, y] = project(view, at)
    const [x0, y0] = project(view, from)
    const r = RADIUS
    // The limbs' own names stand on the outer sides.
    const right = x > view.area.x + view.area.width / 2
    return [
      line(x0, y0, x, y, { stroke: 'ink', width: MARK.thin, dash: [2, 3] }),
      circle(x, y, r, { stroke: 'paper', width: 4 }),
      circle(x, y, r, { stroke: 'ink', width: MARK.line }),
      line(x - 1.7 * r, y, x + 1.7 * r, y, { stroke: 'ink', width: MARK.thin }),
      line(x, y - 1.7 * r, x, y + 1.7 * r, { stroke: 'ink', width: MARK.thin }),
      ...(view.id === 'floor'
        ? [
            {
              kind: 'text',
              x: x + (right ? -2.2 : 2.2) * r,
              y: y + TEXT.small / 3,
              text: LABEL,
              size: TEXT.small,
              bold: true,
              anchor: right ? 'end' : 'start',
              ink: 'ink',
              halo: 'paper',
            } as const,
          ]
        : []),
    ]
  })
  return { ...list, items: [...list.items, ...items] }
}

const LABEL = 'to here'
/** px */
const RADIUS = 7
