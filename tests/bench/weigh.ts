import { random } from '../../src/space/random'
import { split } from '../../src/weigh/split'
import { ContactSystem } from '../../src/weigh/system'
import { judge } from '../../src/weigh/verdict'
import { weigh } from '../../src/weigh/weigh'
import type { Stance } from '../weigh/by-hand'
import { anyStance, kneeling } from '../weigh/stances'
import type { Case } from './measure'

const MOVERS = [['kneeL', 'footL'], ['kneeR', 'footR'], ['handL'], ['kneeL']].map((ids) => new Set(ids))

/** Goals are the project's own: a drag must leave the page most of its 16 ms. */
export function weighCases(): Case[] {
  const any = many(anyStance)
  const fives = many(kneeling)
  const levels = fives.map(({ contacts, body }) => ({ contacts: contacts.slice(0, 4), body }))
  return [
    splitCase('split', 'random problems, 2–6 pads of 1–12 vertices, most without a balance', any),
    splitCase('split', 'kneeling on five pads of eight vertices', fives),
    {
      name: 'split, ranges, region, four verdicts',
      input: 'kneeling on five pads of eight vertices, one 0.45 m up',
      goal: { median: 0.6 },
      run: (turn) => weighAndJudge(fives[turn % fives.length] as Stance),
    },
    {
      name: 'split, ranges, region, four verdicts',
      input: 'kneeling on four level pads of eight vertices',
      goal: { median: 0.6 },
      run: (turn) => weighAndJudge(levels[turn % levels.length] as Stance),
    },
  ]
}

function splitCase(name: string, input: string, stances: readonly Stance[]): Case {
  const system = new ContactSystem()
  return {
    name,
    input,
    goal: { median: 0.03, p99: 0.2 },
    run: (turn) => {
      const { contacts, body } = stances[turn % stances.length] as Stance
      system.load(contacts, body)
      split(system)
    },
  }
}

function weighAndJudge({ contacts, body }: Stance): void {
  const weighing = weigh(contacts, body)
  for (const mover of MOVERS) judge(contacts, body, weighing, mover)
}

function many(make: (next: () => number) => Stance): Stance[] {
  const next = random(1)
  return Array.from({ length: 2_000 }, () => make(next))
}
