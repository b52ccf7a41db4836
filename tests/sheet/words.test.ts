import { describe, expect, it } from 'vitest'
import { mirrorPlan } from '../../src/plan/mirror'
import type { Verdict } from '../../src/weigh/types'
import { stancePlan } from '../support/plans'
import { capstone, spaced, weighed, withPose, wordsAt } from './sheets'

const demo = weighed(capstone())
const all = (words: { headline: string; sentences: readonly string[] }) =>
  spaced([words.headline, ...words.sentences].join(' '))

/** The verdict on the demo's left leg at its first frame, with some of it changed. */
const verdict = (changes: Partial<Verdict>): Verdict => ({ ...demo.at(0).judge(demo.take.mover), ...changes })

describe('the verdict in sentences', () => {
  it('says of a pinned limb what it carries, its least, and how far the weight must go', () => {
    const words = all(
      wordsAt(demo, 0, {
        verdict: verdict({
          kind: 'pinned',
          empty: { move: [-0.096, 0], distance: 0.096 },
          safe: { move: [-0.109, 0], distance: 0.109 },
        }),
      }),
    )
    expect(words).toMatch(
      /^His left leg is pinned here\. It carries \d+ % \(\d+ kg\); it can’t carry less than \d+ %\. Empty when the weight is 10 cm further to his right; safe at 11 cm\.$/,
    )
  })

  it('gives the numbers of the weighing', () => {
    const { weighing, body } = demo.at(0)
    const leg = weighing.limbs.find(({ id }) => id === 'legL')
    const share = leg?.vertical as number
    const least = (leg?.least as number) / (body.mass * body.gravity)
    const words = all(wordsAt(demo, 0))
    expect(words).toContain(`It carries ${Math.round(100 * share)} % (${Math.round(share * body.mass)} kg)`)
    expect(words).toContain(`less than ${Math.round(100 * least)} %`)
  })

  it('names another direction for the safe place where it lies elsewhere', () => {
    const words = all(
      wordsAt(demo, 0, {
        verdict: verdict({
          empty: { move: [-0.1, 0], distance: 0.1 },
          safe: { move: [-0.1, -0.1], distance: Math.SQRT2 / 10 },
        }),
      }),
    )
    expect(words).toContain(
      'Empty when the weight is 10 cm further to his right; safe at 15 cm further back and to his right.',
    )
  })

  it.each([
    ['off', 'His left leg is off.'],
    ['empty', 'His left leg touches and is empty. It carries 45 % (191 kg).'],
    ['could let go', 'His left leg could let go here. It carries 45 % (191 kg), and could carry nothing.'],
  ] as const)('of %s', (kind, words) => {
    const given = verdict({ kind, empty: null, safe: { move: [0, 0], distance: 0 } })
    const got = all(wordsAt(demo, 0, { verdict: given }))
    expect(got.replace(/\d+ % \(\d+ kg\)/, '45 % (191 kg)')).toBe(words)
  })

  it('asks for room to spare where the limb could go only just', () => {
    const given = verdict({ kind: 'could let go', safe: { move: [0, 0.02], distance: 0.02 } })
    expect(all(wordsAt(demo, 0, { verdict: given }))).toMatch(
      /Safe when the weight is 2 cm further forward\.$/,
    )
  })

  it.each([
    ['no other contact', 'Never from here: nothing else touches.'],
    [
      'no grip',
      'Never from here: the other contacts can’t hold the body without it, wherever its weight is.',
    ],
    ['load limit', 'Never from here: the other contacts would carry more than they are allowed.'],
  ] as const)('says never, and why: %s', (never, words) => {
    expect(wordsAt(demo, 0, { verdict: verdict({ empty: null, safe: null, never }) }).sentences).toContain(
      words,
    )
  })

  it('says what stops the body where the caller knows', () => {
    const { sentences } = wordsAt(demo, 0, { limit: 'the left arm is straight' })
    expect(sentences).toContain('Never from here: the left arm is straight.')
  })

  it('says where there is no room to spare anywhere', () => {
    const given = verdict({ empty: { move: [-0.1, 0], distance: 0.1 }, safe: null })
    expect(all(wordsAt(demo, 0, { verdict: given }))).toContain(
      'to his right, but nowhere with room to spare.',
    )
  })

  it('speaks of the knee alone where the toes stay, of a fist, and of her', () => {
    expect(wordsAt(demo, 0, { mover: { limb: 'legL', toesStay: true } }).headline).toMatch(/^His left knee /)
    expect(wordsAt(demo, 0, { mover: { limb: 'armL', toesStay: false } }).headline).toMatch(/^His left fist /)
    expect(wordsAt(demo, 0, { mover: { limb: 'armR', toesStay: false } }).headline).toBe(
      'His right hand is off.',
    )
    expect(wordsAt(demo, 0, { they: 'her' }).headline).toMatch(/^Her left leg /)
  })

  it('of the mirrored pose is the mirrored words', () => {
    const mirrored = weighed(mirrorPlan(capstone()))
    const swapped = (text: string) =>
      text.replace(/left|right/g, (side) => (side === 'left' ? 'right' : 'left'))
    for (const frame of [0, 9, 22]) {
      const words = all(wordsAt(demo, frame))
      expect(all(wordsAt(mirrored, frame))).toBe(swapped(words))
    }
  })

  it('rounds so that whoever goes as far as it says is there', () => {
    const { verdicts } = demo.at(0)
    const distance = verdicts.legL.empty?.distance as number
    const said = /weight is (\d+) cm/.exec(all(wordsAt(demo, 0)))
    expect(Number(said?.[1])).toBe(Math.ceil(100 * distance))
  })
})

describe('the push from nowhere in a sentence', () => {
  it('says how much and which way the body would fall', () => {
    const back = weighed(withPose(stancePlan('standing'), 0, { 'pelvis.z': -0.3 }))
    const push = back.at(0).weighing.push
    const words = all(wordsAt(back, 0))
    expect(words).toContain(
      `${Math.round(push.size * back.plan.body.mass)} kg of push from nowhere hold him here`,
    )
    expect(words).toMatch(/he would fall back\.$/)
  })

  it('falls to the side the weight is on', () => {
    const over = weighed(withPose(stancePlan('standing'), 0, { 'pelvis.x': 0.45, 'chest.list': -0.8 }))
    expect(over.at(0).weighing.push.size).toBeGreaterThan(0.01)
    expect(all(wordsAt(over, 0))).toMatch(/he would fall (forward and )?to his left\.$/)
  })

  it('is not there where the body is held', () => {
    expect(all(wordsAt(demo, 0))).not.toContain('push')
  })
})
