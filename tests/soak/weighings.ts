import { random } from '../../src/space/random'
import { PUSH_NONE } from '../../src/weigh/constants'
import { judge } from '../../src/weigh/verdict'
import { weigh } from '../../src/weigh/weigh'
import { anyStance, kneeling } from '../weigh/stances'
import { must, mustBeNumbers, type Soak } from './soak'

/** Any stance, hopeless ones too: what is said of it is in order and agrees with itself. */
export const weighings: Soak = {
  name: 'weighings',
  long: 100_000,
  most: 2_000,
  regressions: [],
  attempt(seed) {
    const next = random(seed)
    const { contacts, body } = seed % 4 === 3 ? kneeling(next) : anyStance(next)
    const weighing = weigh(contacts, body)
    const { room, region, push, ...rest } = weighing
    mustBeNumbers(rest, 'weighing')
    mustBeNumbers({ region, push }, 'weighing')
    must(!Number.isNaN(room) && room < Number.POSITIVE_INFINITY, () => `room is ${room}`)
    must(region.length > 0 || room === Number.NEGATIVE_INFINITY, () => `room ${room} without a region`)

    // Whether it is outside is decided by the push, and the room says the same.
    must(push.size < PUSH_NONE ? room >= 0 : room <= 0, () => `push ${push.size}, room ${room}`)

    // What the contacts give and what comes from nowhere are together what is needed.
    const weight = body.mass * body.gravity
    const needed = body.force ?? [0, weight, 0]
    for (const i of [0, 1, 2] as const) {
      const given = weighing.contacts.reduce((sum, { force }) => sum + force[i], push.force[i])
      must(Math.abs(given - needed[i]) < 1e-7 * weight, () => `axis ${i}: ${given} for ${needed[i]}`)
    }

    for (const { id, load, least, most } of [...weighing.contacts, ...weighing.limbs]) {
      const slack = 1e-9 * weight
      must(
        least >= 0 && least <= load + slack && load <= most + slack,
        () => `${id}: ${least} ${load} ${most}`,
      )
    }
    for (const { id, frictionUsed } of weighing.contacts)
      must(frictionUsed >= 0 && frictionUsed <= 1, () => `${id} uses ${frictionUsed} of its friction`)

    for (const limb of weighing.limbs) {
      const mover = new Set(contacts.filter((one) => one.limb === limb.id).map(({ id }) => id))
      const verdict = judge(contacts, body, weighing, mover)
      mustBeNumbers(verdict, `verdict on ${limb.id}`)
      must(verdict.least <= verdict.load + 1e-9 * weight, () => `${limb.id} bears less than its least`)
      const { empty, safe } = verdict
      must(
        empty === null || safe === null || safe.distance >= empty.distance - 1e-9 * body.stature,
        () => `${limb.id} is safe at ${safe?.distance} before it is empty at ${empty?.distance}`,
      )
      // Only what can be let go of where the weight stands is let go of without a move.
      must(
        empty?.distance !== 0 || push.size < PUSH_NONE,
        () => `${limb.id} is empty at once under a push of ${push.size}`,
      )
    }
    return undefined
  },
}
