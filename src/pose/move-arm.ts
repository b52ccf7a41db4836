import type { Side } from '../body/model'
import { add, sub, unit } from '../space/vec'
import { alongCircle } from './aim'
import { controlled, type Grasp, type Moved, placeIn, put, slid, spanOf, withinTurn } from './grasp'
import { slideContact } from './slide'

/** A free hand goes where it is asked; a planted one slides over its surface. */
export function moveHand(grasp: Grasp, side: Side): Moved {
  const { start, target, ground } = grasp
  const hand = spanOf(grasp, `hand${side}`)
  if (!hand) return controlled(grasp, put(`arm${side}.hand`, target))
  const by = sub(target, start.joints[`knuckle${side}`])
  return slid(grasp, hand, slideContact(ground, hand, add(hand.position, by)))
}

/** The elbow goes round the line from the shoulder to the hand. */
export function moveElbow(grasp: Grasp, side: Side): Moved {
  const { start, target, free, asked } = grasp
  const { joints } = start
  const shoulder = joints[`shoulder${side}`]
  const planted = spanOf(grasp, `hand${side}`) !== null
  const hand = planted ? joints[`wrist${side}`] : placeIn(asked, `arm${side}.hand`)
  const round = alongCircle(shoulder, unit(sub(hand, shoulder)), joints[`elbow${side}`], target, free)
  const id = `arm${side}.elbow` as const
  return controlled(grasp, { [id]: withinTurn(asked[id] + (side === 'L' ? round : -round)) })
}
