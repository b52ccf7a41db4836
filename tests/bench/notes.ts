import { makeBody } from '../../src/body/model'
import type { Plan, Take } from '../../src/document/plan'
import { scaleTime } from '../../src/plan/edit/frames'
import { makeMotion } from '../../src/pose/between'
import { notesOf } from '../../src/sheet/notes/notes'
import { type DynamicFrame, weighMotion } from '../../src/weigh/dynamic'
import { capstone } from '../support/capstone'
import { capstoneBad } from '../support/capstone-bad'
import type { Case } from './measure'

const FRAMES = 240

/** Goal, ours: all notes for 240 weighed frames in 50 ms. */
export function notesCases(): Case[] {
  return [
    notesCase('the demo, played slower', capstone()),
    notesCase('the bad take of the demo, played slower', capstoneBad()),
  ]
}

function notesCase(name: string, made: Plan): Case {
  const one = made.takes[0] as Take
  const plan = scaleTime(made, one.id, FRAMES / one.length)
  const take = plan.takes[0] as Take
  const body = makeBody(plan.body)
  const motion = makeMotion(body, take)
  const { ground, gravity } = plan
  const frames: DynamicFrame[] = []
  for (const frame of weighMotion({
    body,
    ground,
    gravity,
    take,
    motion,
    fps: plan.rate.num / plan.rate.den,
  }))
    frames[frame.frame] = frame
  const problem = { plan, take, motion, weighed: (frame: number) => frames[frame] }
  return {
    name: 'all notes on weight',
    input: `${name}: ${take.length} frames, weighed`,
    goal: { median: 50 },
    run: () => {
      notesOf(problem)
    },
  }
}
