import { describe, expect, it } from 'vitest'
import { makeBody } from '../../src/body/model'
import type { Take } from '../../src/document/plan'
import { makeMotion } from '../../src/pose/between'
import { centimetres } from '../../src/sheet/format'
import { flagsOf, landingsOf } from '../../src/sheet/motion-flags'
import {
  bothWords,
  dragWords,
  flagWords,
  landingWords,
  type MotionSpeaker,
  pushWords,
} from '../../src/sheet/motion-words'
import { deadlineWords, leastWords } from '../../src/sheet/span-words'
import type { DynamicFrame } from '../../src/weigh/dynamic'
import { leastFramesOf, weighMotionOf } from '../../src/worker/weigh-motion'
import { stancePlan } from '../support/plans'
import { slippingPlan } from '../support/slipping'

const plan = slippingPlan()
const take = plan.takes[0] as Take
const pose = makeMotion(makeBody(plan.body), take).poseAt(0)
const speaker: MotionSpeaker = {
  firstFrame: plan.firstFrame,
  contacts: take.contacts,
  mass: pose.mass,
  unit: centimetres(plan.body.stature),
  heading: 0,
}
const framesOf = (of: typeof plan): DynamicFrame[] => {
  const frames: DynamicFrame[] = []
  for (const piece of weighMotionOf({ plan: of, near: 0 }))
    if (piece !== undefined && 'frame' in piece) frames[piece.frame] = piece
  return frames
}
const frames = framesOf(plan)
const label = plan.firstFrame
const spaced = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ')

describe('two keys six frames apart with a knee that slides', () => {
  it('are flagged: a push from nowhere, and the knee that slides a quarter metre with weight on it', () => {
    const flags = flagsOf(frames)
    expect(new Set(flags.map(({ kind }) => kind))).toEqual(new Set(['push', 'slides']))
    const slide = flags.find(({ kind }) => kind === 'slides')
    expect(slide).toMatchObject({ id: take.contacts.find(({ part }) => part === 'kneeL')?.id })
    if (slide?.kind !== 'slides') throw new Error('there is no slide')
    // All of it: nothing of the way lies between two frames.
    expect(slide.moved).toBeCloseTo(0.25, 2)
    const worst = frames[slide.frame] as DynamicFrame
    const load = worst.weighing.contacts.find(({ id }) => id === slide.id)?.load ?? 0
    expect(slide.kilograms).toBeCloseTo(load / 9.81, 9)
    for (const flag of flags) expect(flag.from >= 4 && flag.to <= 10).toBe(true)
  })

  it('are said with the frame and the kilograms', () => {
    const said = flagsOf(frames).map((flag) => spaced(flagWords(flag, speaker)))
    expect(said).toContainEqual(expect.stringMatching(/^Push from nowhere from \d+ to \d+: \d+ kg at \d+\.$/))
    expect(said).toContainEqual(
      expect.stringMatching(/^Left knee slides 2[45] cm under load from \d+ to \d+: \d+ kg on it at \d+\.$/),
    )
  })

  it('at a frame the push has its kilograms and its way, and the drag its way', () => {
    const worst = frames.reduce((a, b) => (b.push.kilograms > a.push.kilograms ? b : a))
    const said = spaced(pushWords(worst, speaker) as string)
    expect(said).toMatch(/^\d+ kg of push from nowhere (shove him|turn him|hold him|pull him)/)
    expect(said.startsWith(`${Math.round(worst.push.kilograms)} kg`)).toBe(true)
    const sliding = frames.find(({ drags }) => drags.length > 0) as DynamicFrame
    expect(spaced(dragWords(sliding.drags[0] as never, 9.81, speaker))).toMatch(
      /^Left knee slides \d+ cm in this frame and drags with \d+ kg\.$/,
    )
    expect(pushWords(frames[0] as DynamicFrame, speaker)).toBeNull()
  })

  it('the mover is freed by the motion alone: pinned held still, empty thrown across', () => {
    const freed = frames.filter(({ verdict }) => verdict?.motion === 'frees')
    expect(freed.length).toBeGreaterThan(0)
    expect(bothWords(freed[0] as DynamicFrame, take.mover)).toBe(
      'His left leg would be pinned if he held still here; in motion it is empty, because he is being thrown across.',
    )
    expect(bothWords(frames[0] as DynamicFrame, take.mover)).toBe(
      'His left leg, in motion as held still: pinned.',
    )
  })

  it('the span says what it uses, what it needs, and what no curve could beat, with the frame that limits', () => {
    const [least] = [...leastFramesOf({ plan, from: 4, to: 10 })].filter((piece) => piece !== null)
    if (!least?.ok || !least.best.ok || least.limit === null) throw new Error('it has a least')
    expect(least.frames).toBeGreaterThan(least.best.frames)
    const said = leastWords(least, 6, label)
    expect(said[0]).toBe(
      `You use 6; this needs ${least.frames}, no curve could do it under ${least.best.frames}.`,
    )
    expect(said[1]).toMatch(new RegExp(`^Frame ${label + least.limit.frame} limits: .+\\.$`))
  })
})

it('a take that stands still has no flag, no landing and no push', () => {
  const still = framesOf(stancePlan())
  expect(flagsOf(still)).toEqual([])
  expect(landingsOf(still)).toEqual([])
})

it('a landing is said with its speed and its impulse; one without a speed as a touch', () => {
  const knee = take.contacts.find(({ part }) => part === 'kneeL')?.id as string
  const landing = { frame: 5, id: knee, speed: 0.4, impulse: 31.6 }
  expect(spaced(landingWords(landing, speaker))).toBe(
    `Left knee lands at ${label + 5} with 0.40 m/s; the ground takes 32 N·s.`,
  )
  expect(landingWords({ ...landing, speed: 0 }, speaker)).toBe(
    `Left knee touches at ${label + 5} without a blow.`,
  )
})

describe('not before, down by', () => {
  it('fits with frames to spare, exactly, or not by how many', () => {
    expect(deadlineWords(20, 1001, 1031, 0)).toEqual({
      fits: true,
      words: 'It fits: 30 frames are there, 20 needed, 10 to spare.',
    })
    expect(deadlineWords(20, 1001, 1021, 0).words).toBe('It fits: 20 frames are there, 20 needed.')
    expect(deadlineWords(20, 1001, 1015, 4).words).toContain(
      'Too long by 6 frames: cut 4 frames of hold and find 2 more',
    )
    expect(deadlineWords(20, 1001, 1020, 4).words).toContain('Too long by 1 frame: cut 1 frame of hold;')
    expect(deadlineWords(20, 1001, 1001, 0)).toMatchObject({ fits: false })
  })
})

it('no even pace is said, with the frame that stops it and the one at which he would fall', () => {
  const words = leastWords(
    { ok: false, best: { ok: false, why: 'ends at the edge' }, limit: { frame: 3, why: 'grip' }, fall: 7 },
    12,
    1001,
  )
  expect(words).toEqual([
    'You use 12; no even pace will do, and at the very edge nothing catches him.',
    'Frame 1004 stops it: something he stands on would slip. At 1008 he would fall if it went slower.',
  ])
})
