import loadHighs from 'highs'
import { describe, expect, it } from 'vitest'
import { between, random } from '../../src/space/random'
import type { Vec3 } from '../../src/space/vec'
import { split } from '../../src/weigh/split'
import { ContactSystem } from '../../src/weigh/system'
import { momentOf, neededBy, type Stance, verticesOf } from '../weigh/by-hand'
import { anyStance } from '../weigh/stances'

/*
 * The split against HiGHS as a solver of quadratic programmes (test only), where friction cones are no curved
 * ones: contacts without friction, each vertex then having one unknown ≥ 0.
 */
describe('against HiGHS', () => {
  /**
   * @checks the split over contacts without friction, 120 random stances
   * @against the same quadratic programme, solved elsewhere
   * @from highs; library
   * @within 1e-5 of the weight
   */
  it('120 splits on smooth contacts agree within 1e-5 of the weight', { timeout: 60_000 }, async () => {
    const highs = await loadHighs()
    const next = random(404)
    const system = new ContactSystem()
    let worst = 0
    let compared = 0
    for (let i = 0; i < 120; i++) {
      const stance = bearable(next)
      const { contacts, body } = stance
      const vertices = verticesOf(contacts, body)
      const wrenches = vertices.map(({ normal, arm }) => [...normal, ...momentOf(arm, normal)])
      const sum = (terms: readonly number[]) =>
        terms.map((a, j) => ` ${a < 0 ? '-' : '+'} ${Math.abs(a).toFixed(17)} x${j}`).join('\n')
      const squares = vertices.map(({ stiffness }, j) => ` + ${1 / stiffness} x${j} ^ 2`).join('\n')
      const rows = neededBy(body).map(
        (w, r) => ` r${r}:${sum(wrenches.map((wrench) => wrench[r] as number))} = ${w}`,
      )
      const text = `Minimize\n obj: [${squares} ] / 2\nSubject To\n${rows.join('\n')}\nEnd\n`
      const solved = highs.solve(text, { output_flag: false })
      expect(solved.Status, `stance ${i}`).toBe('Optimal')
      system.load(contacts, body)
      const push = Math.hypot(...split(system).push)
      expect(push, `stance ${i}`).toBeLessThan(1e-5)
      // Some hold only just: there a millionth of the weight left over is worth a hundredth in a soft contact.
      if (push > 1e-9) continue
      compared++
      for (let j = 0; j < vertices.length; j++) {
        const column = solved.Columns[`x${j}`]
        if (!column || !('Primal' in column)) throw new Error(`no x${j}`)
        worst = Math.max(worst, Math.abs(column.Primal - (system.force[3 * j] as number)))
      }
    }
    expect(worst).toBeLessThan(1e-5)
    expect(compared).toBeGreaterThan(110)
  })
})

/** Smooth contacts, and the wrench that some forces of theirs give, so that they can give it. */
function bearable(next: () => number): Stance {
  const { contacts, body } = anyStance(next)
  const smooth = contacts.map((c) => ({ ...c, friction: 0 }))
  const weight = body.mass * body.gravity
  let force: Vec3 = [0, 0, 0]
  let moment: Vec3 = [0, 0, 0]
  for (const { normal, arm } of verticesOf(smooth, body)) {
    const n = Math.max(0, between(next, -0.1, 0.2)) * weight
    const m = momentOf(arm, normal)
    force = [force[0] + n * normal[0], force[1] + n * normal[1], force[2] + n * normal[2]]
    const long = n * 0.25 * body.stature
    moment = [moment[0] + long * m[0], moment[1] + long * m[1], moment[2] + long * m[2]]
  }
  return { contacts: smooth, body: { ...body, force, moment } }
}
