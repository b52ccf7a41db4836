import { expect, test } from 'vitest'
import { makeBody } from '../../src/body/model'
import type { Take } from '../../src/document/plan'
import { loadsAt, makeMotion } from '../../src/pose/between'
import { centimetres } from '../../src/sheet/format'
import { framesText, liftWords, secondsText, waysText } from '../../src/sheet/lift-words'
import type { LiftTrial } from '../../src/trial/lift'
import { moverPads, weighPose } from '../../src/weigh/pose'
import { capstone } from '../support/capstone'
import { tried } from '../trial/poses'

const plan = capstone()
const take = plan.takes[0] as Take
const body = makeBody(plan.body)
const motion = makeMotion(body, take)
const unit = centimetres(body.stature)

function saidAt(frame: number) {
  const pose = motion.poseAt(frame)
  const trial = tried({
    frozen: { body, pose, loads: loadsAt(take, frame) },
    contacts: weighPose(plan.ground, plan.gravity, body.stature, pose).contacts,
    mover: moverPads(pose.pads, take.mover),
    gravity: plan.gravity,
    rate: plan.rate,
  })
  return { pose, trial, words: liftWords({ trial, pose, unit }) }
}

test('at the first key he tips to his left, and it is said how soon and over what', () => {
  const { trial, words } = saidAt(0)
  expect(words.headline).toBe('He tips to his left.')
  const [soon, over] = words.sentences
  const [, seconds, frames] = soon?.match(/^Past 5° in ([\d.]+)\u00a0s, (\d+½?)\u00a0frames\.$/) ?? []
  if (trial.outcome !== 'tips') throw new Error('it holds')
  expect(Number(seconds)).toBeCloseTo(trial.seconds as number, 2)
  expect(Number(frames?.replace('½', '.5'))).toBeCloseTo(Math.round((trial.frames as number) * 2) / 2, 9)
  expect(over).toBe('He goes over the line from his right toes to his left fist.')
})

test('in the sink he holds, with room', () => {
  const { words } = saidAt(31)
  expect(words.headline).toBe('He holds.')
  expect(words.sentences.join(' ')).toMatch(/^\d+\u00a0cm of room before he would tip to his left\.$/)
})

test('where friction can hold it, it is said that he must brace', () => {
  const { words } = saidAt(17)
  expect(words.headline).toBe('He holds, if he braces.')
  expect(words.sentences[0]).toMatch(
    /^The weight is \d+\u00a0cm past the edge to his left: friction can hold it, if he braces\.$/,
  )
})

test('over a corner the way is said to be approximate', () => {
  const { pose, trial } = saidAt(0)
  if (trial.outcome !== 'tips') throw new Error('it holds')
  const { axis } = trial.edge
  const corner: LiftTrial = {
    ...trial,
    edge: { axis: { ...axis, overCorner: true, ends: axis.ends.slice(0, 1) }, way: ['left', 'forward'] },
  }
  const words = liftWords({ trial: corner, pose, unit, they: 'her' })
  expect(words.headline).toBe('She tips to her left and forward.')
  expect(words.sentences.join(' ')).toContain('over a corner')
  expect(words.sentences.join(' ')).toContain('the way is approximate')
})

test('falling and slipping are words of their own', () => {
  const { pose } = saidAt(0)
  expect(liftWords({ trial: { outcome: 'falls' }, pose, unit }).headline).toBe('He falls.')
  expect(liftWords({ trial: { outcome: 'slips', edge: null }, pose, unit }).headline).toBe('He slips.')
})

test('frames are said to the nearest half, seconds to a hundredth', () => {
  expect([6.47, 6.2, 0.6, 0.1, 1, 11.76].map(framesText)).toEqual(
    ['6½ frames', '6 frames', '½ frame', '½ frame', '1 frame', '12 frames'].map((text) =>
      text.replace(' ', '\u00a0'),
    ),
  )
  expect(secondsText(0.26966)).toBe('0.27\u00a0s')
  expect(waysText(['back', 'right'], 'its')).toBe('back and to its right')
})
