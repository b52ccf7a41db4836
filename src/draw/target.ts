import type { Vec3 } from '../space/vec'
import { MARK, TEXT } from './constants'
import type { StageLayout } from './layout'
import { circle, type DisplayList, type Item, line } from './list'
import { project } from './project'

/** The list with a place marked in every view: a ring with a cross, in ink since it is no weight. */
export function withTarget(
  list: DisplayList,
  layout: StageLayout,
  { at, name }: { readonly at: Vec3; readonly name: string },
): DisplayList {
  const items = layout.views.flatMap((view): Item[] => {
    const [x, y] = project(view, at)
    const r = RADIUS
    return [
      circle(x, y, r, { stroke: 'paper', width: 4 }),
      circle(x, y, r, { stroke: 'ink', width: MARK.line }),
      line(x - 1.7 * r, y, x + 1.7 * r, y, { stroke: 'ink', width: MARK.thin }),
      line(x, y - 1.7 * r, x, y + 1.7 * r, { stroke: 'ink', width: MARK.thin }),
      ...(view.id === 'floor'
        ? [
            {
              kind: 'text',
              x,
              y: y - 2.2 * r,
              text: name,
              size: TEXT.small,
              bold: true,
              anchor: 'middle',
              ink: 'ink',
              halo: 'paper',
            } as const,
          ]
        : []),
    ]
  })
  return { ...list, items: [...list.items, ...items] }
}

/** px */
const RADIUS = 7
