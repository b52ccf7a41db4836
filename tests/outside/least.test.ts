import loadHighs from 'highs'
import { beforeAll, describe, expect, it } from 'vitest'
import { bestLeast, type LevelShift } from '../../src/shift/best-least'
import { paceOf } from '../../src/shift/pace'
import { between, random } from '../../src/space/random'
import { addScaled, cross, scale, unit, type Vec3 } from '../../src/space/vec'
import { TOTAL_LIMIT } from '../../src/weigh/constants'
import type { Body, Contact } from '../../src/weigh/weigh'
import { neededBy, type Stance, verticesOf } from '../weigh/by-hand'
import { anyStance, kneeling, pad } from '../weigh/stances'

/* Least frames against HiGHS, an outside solver of linear programmes (test only). */

type Highs = Awaited<ReturnType<typeof loadHighs>>
let highs: Highs
beforeAll(async () => {
  highs = await loadHighs()
})

const sum = (terms: readonly number[], name: string) =>
  terms
    .map((a, i) => (a === 0 ? '' : ` ${a < 0 ? '-' : '+'} ${Math.abs(a)} ${name}${i}`))
    .filter(Boolean)
    // The format allows no longer lines than 560 characters.
    .join('\n')

const TIGHT = {
  primal_feasibility_tolerance: 1e-9,
  dual_feasibility_tolerance: 1e-9,
  output_flag: false,
}

describe('the closed form against a least-time linear programme', () => {
  const PARTS = 80
  const FPS = 24

  /**
   * Whether some course of the centre of pressure, constant over each of PARTS parts of the time and within the
   * support, takes the pendulum from rest to rest. Every part is integrated exactly, so that place and speed at
   * the end are linear in the centres of pressure.
   */
  function arrives({ from, to, support, height, gravity }: LevelShift, seconds: number): boolean {
    const omega = Math.sqrt(gravity / height)
    const step = (omega * seconds) / PARTS
    const [c, s] = [Math.cosh(step), Math.sinh(step)]
    // Place and speed / ω as linear forms: the constant, then a factor for each part.
    let place = [from, ...Array<number>(PARTS).fill(0)]
    let speed = Array<number>(PARTS + 1).fill(0)
    for (let part = 1; part <= PARTS; part++) {
      const next = place.map((x, i) => c * x + s * (speed[i] as number) + (i === part ? 1 - c : 0))
      speed = speed.map((v, i) => s * (place[i] as number) + c * v - (i === part ? s : 0))
      place = next
    }
    const row = (form: readonly number[], goal: number, name: string) =>
      ` ${name}:${sum(form.slice(1), 'p')} = ${goal - (form[0] as number)}`
    const text = [
      'Minimize\n obj: p0',
      'Subject To',
      row(place, to, 'place'),
      row(speed, 0, 'speed'),
      'Bounds',
      ...Array.from({ length: PARTS }, (_, i) => ` ${support[0]} <= p${i} <= ${support[1]}`),
      'End',
    ].join('\n')
    return highs.solve(text, TIGHT).Status === 'Optimal'
  }

  /**
   * @checks least time of a level shift, 100 random ones
   * @against programmes that ask whether any course of 80 parts arrives in time
   * @from highs; library
   * @within one frame; 1e-3 under to a factor of 1.02 over
   */
  it('agrees within one frame on 100 random shifts', { timeout: 120_000 }, () => {
    const next = random(2024)
    let worst = 0
    for (let i = 0; i < 100; i++) {
      const half = between(next, 0.05, 0.8)
      const middle = between(next, -1, 1)
      const at = () => middle + between(next, -0.93, 0.93) * half
      const one: LevelShift = {
        from: at(),
        to: at(),
        support: [middle - half, middle + half],
        leading: middle + half,
        height: between(next, 0.3, 3),
        gravity: between(next, 1.6, 25),
      }
      const least = bestLeast(one)
      if (!least.ok) throw new Error(least.why)
      let [low, high] = [0, 2 * least.seconds]
      expect(arrives(one, high), `shift ${i}`).toBe(true)
      for (let halving = 0; halving < 11; halving++) {
        const seconds = (low + high) / 2
        if (arrives(one, seconds)) high = seconds
        else low = seconds
      }
      // Switching only between parts of the time takes a little longer, never less.
      expect(high, `shift ${i}`).toBeGreaterThan(least.seconds * (1 - 1e-3))
      expect(high, `shift ${i}`).toBeLessThan(least.seconds * 1.02)
      const frames = (seconds: number) => Math.ceil(seconds * FPS)
      expect(Math.abs(frames(high) - frames(least.seconds)), `shift ${i}`).toBeLessThanOrEqual(1)
      worst = Math.max(worst, high / least.seconds - 1)
    }
    expect(worst).toBeGreaterThan(0)
  })
})

describe('how fast a frame may go against HiGHS', () => {
  const EDGES = 32

  /** Greatest and least λ with friction pyramids of so many edges, their edges in the cone or around it. */
  function bracket({ contacts, body }: Stance, around: boolean): [number, number] {
    const [still, wrench] = [[0, 1, 0, 0, 0, 0], neededBy(body)]
    const columns = verticesOf(contacts, body).flatMap(({ contact, normal, arm }) => {
      const friction = around ? contact.friction / Math.cos(Math.PI / EDGES) : contact.friction
      const u = unit(cross(normal, Math.abs(normal[1]) < 0.9 ? [0, 1, 0] : [1, 0, 0]))
      const v = cross(normal, u)
      return Array.from({ length: EDGES }, (_, k) => {
        const angle = (2 * Math.PI * k) / EDGES
        const side: Vec3 = addScaled(scale(u, Math.cos(angle)), v, Math.sin(angle))
        const force = addScaled(normal, side, friction)
        return { contact, terms: [...force, ...cross(arm, force)] }
      })
    })
    const rows = still.map((w, r) => {
      const forces = sum(
        columns.map(({ terms }) => terms[r] as number),
        'x',
      )
      const dynamic = (wrench[r] as number) - w
      return ` r${r}:${forces}\n ${dynamic < 0 ? '+' : '-'} ${Math.abs(dynamic)} pace = ${w}`
    })
    const limits = contacts.map((contact, c) => {
      const own = columns.map((column) => (column.contact === contact ? 1 : 0))
      return ` l${c}:${sum(own, 'x')} <= ${contact.limit}`
    })
    const all = ` all:${sum(
      columns.map(() => 1),
      'x',
    )} <= ${TOTAL_LIMIT}`
    const best = (sense: 'Maximize' | 'Minimize') => {
      const text = [`${sense}\n obj: pace`, 'Subject To', ...rows, ...limits, all, 'End'].join('\n')
      const solved = highs.solve(text, TIGHT)
      return solved.Status === 'Optimal' ? solved.ObjectiveValue : Number.NaN
    }
    return [best('Minimize'), best('Maximize')]
  }

  /** A stance with vertices few enough to be written out, and a motion that it may or may not follow. */
  function moving(next: () => number, index: number): Stance {
    const { contacts, body } = index % 2 === 0 ? kneeling(next) : anyStance(next)
    const few = contacts.map((contact): Contact => {
      const [first, second] = contact.vertices
      const long = first && second ? Math.hypot(...first.map((x, i) => x - (second[i] as number))) : 0.02
      const centre = contact.vertices.reduce<Vec3>(
        (mean, vertex) => addScaled(mean, vertex, 1 / contact.vertices.length),
        [0, 0, 0],
      )
      return {
        ...contact,
        vertices: pad(centre, contact.normal, 3, long, long, next()),
        limit: between(next, 0.5, 2),
      }
    })
    const [weight, length] = [body.mass * body.gravity, 0.25 * body.stature]
    const any = (most: number) => between(next, -most, most)
    // Every fourth body hangs off to one side and is braked towards the middle.
    const off = index % 4 === 2 ? between(next, 0.1, 0.2) * body.stature : 0
    const moved: Body = {
      ...body,
      com: [body.com[0] + off, body.com[1], body.com[2]],
      force: [
        (off > 0 ? between(next, 0.1, 0.4) : any(0.3)) * weight,
        (1 + any(0.6)) * weight,
        any(0.3) * weight,
      ],
      moment: [any(0.2) * weight * length, any(0.2) * weight * length, any(0.2) * weight * length],
    }
    return { contacts: few, body: moved }
  }

  /**
   * @checks how fast a frame may go, 120 random ones
   * @against programmes with 32-edged pyramids in and around the friction cones
   * @from highs; library
   * @within 1e-5 outside the two
   */
  it('lies between the pyramids in and around the cones, on 120 frames', { timeout: 120_000 }, () => {
    const next = random(515)
    let [paced, slowest] = [0, 0]
    for (let i = 0; i < 120; i++) {
      const stance = moving(next, i)
      const [innerLeast, innerMost] = bracket(stance, false)
      const [outerLeast, outerMost] = bracket(stance, true)
      const pace = paceOf(stance.contacts, stance.body, 0)
      if (pace === null) {
        expect(innerMost, `frame ${i}`).toBeNaN()
        continue
      }
      paced++
      if (pace.least > 0) slowest++
      const close = 1e-5 * Math.max(1, pace.most)
      expect(pace.most, `frame ${i}`).toBeLessThan(outerMost + close)
      expect(pace.least, `frame ${i}`).toBeGreaterThan(outerLeast - close)
      if (Number.isNaN(innerMost)) continue
      expect(pace.most, `frame ${i}`).toBeGreaterThan(innerMost - close)
      expect(pace.least, `frame ${i}`).toBeLessThan(innerLeast + close)
      expect(outerMost - innerMost, `frame ${i}`).toBeLessThan(0.05 * outerMost + 0.05)
    }
    expect(paced).toBeGreaterThan(50)
    expect(slowest).toBeGreaterThan(10)
  })
})
