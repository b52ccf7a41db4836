import { describe, expect, test } from 'vitest'
import { makeBody } from '../../src/body/model'
import type { Take } from '../../src/document/plan'
import { type StageInput, stageMover, stageWeights } from '../../src/draw/input'
import { boxOf, overlap } from '../../src/draw/labels'
import { type Arrangement, boundsOf, layoutStage } from '../../src/draw/layout'
import type { Group, Item, TextItem } from '../../src/draw/list'
import { drawStage } from '../../src/draw/stage'
import { makeMotion } from '../../src/pose/between'
import { weighPose } from '../../src/weigh/pose'
import { capstone } from '../support/capstone'

const plan = capstone()
const take = plan.takes[0] as Take
const body = makeBody(plan.body)
const motion = makeMotion(body, take)
const frames = Array.from({ length: take.length }, (_, i) => i).filter((i) => i % 6 === 0)
const bounds = boundsOf(body, frames.map(motion.poseAt), plan.ground.boxes)

const SCREENS: readonly (readonly [string, number, number, Arrangement])[] = [
  ['1280 × 720', 830, 676, { kind: 'quarter' }],
  ['1920 × 1080', 1240, 1036, { kind: 'quarter' }],
  ['390 × 844', 390, 600, { kind: 'stack' }],
]

function stageAt(frame: number, [, width, height, arrangement]: (typeof SCREENS)[number]): StageInput {
  const pose = motion.poseAt(frame)
  const { weighing, verdicts } = weighPose(plan.ground, plan.gravity, body.stature, pose)
  return {
    layout: layoutStage({ width, height, arrangement, bounds }),
    body,
    pose,
    boxes: plan.ground.boxes,
    carried: take.loads.filter(({ from, to }) => from <= frame && frame <= to),
    weights: stageWeights(weighing, pose.mass),
    mover: stageMover('legL', verdicts.legL, pose.segments.lowerTrunk),
  }
}

const texts = (items: readonly (Item | Group)[]): TextItem[] =>
  items.flatMap((item) => (item.kind === 'group' ? texts(item.items) : item.kind === 'text' ? [item] : []))

describe.each(SCREENS)('the demo at %s', (...screen) => {
  test.each(frames)('frame %i: no text is cut or lies on another', (frame) => {
    const { list } = drawStage(stageAt(frame, screen))
    const boxes = texts(list.items).map((t) => ({ text: t.text, box: boxOf(t) }))
    for (const [i, { text, box }] of boxes.entries()) {
      expect(box.x, text).toBeGreaterThanOrEqual(0)
      expect(box.y, text).toBeGreaterThanOrEqual(0)
      expect(box.x + box.width, text).toBeLessThanOrEqual(list.width)
      expect(box.y + box.height, text).toBeLessThanOrEqual(list.height)
      for (const other of boxes.slice(i + 1))
        expect(overlap(box, other.box), `${text} on ${other.text}`).toBeLessThan(1)
    }
  })

  test('says what is carried', () => {
    const { list } = drawStage(stageAt(124, screen))
    expect(texts(list.items).map((t) => t.text)).toContain('55\u00a0kg')
  })
})
