import { describe, expect, it } from 'vitest'
import { DE_LEVA, type Part } from '../../src/body/tables'
import { checkProblem } from '../../src/plan/problem'
import { fromProblem } from '../../src/weigh/problem'
import { weigh } from '../../src/weigh/weigh'

/*
 * Published loads, each through a plain problem file. Sources as named with each; "read" is a figure read in
 * the source, "derived" one worked out from figures read there.
 */

const POUND = 4.4482216152605 // N, exactly
const INCH = 0.0254 // m, exactly

type Place = [number, number, number]

/** A problem as a file would say it, read and weighed; the loads by contact. */
function weighed(file: { mass: number; com: Place; contacts: object[] } & Record<string, unknown>) {
  const read = checkProblem({ format: 'weighbridge-problem', version: 1, ...file })
  if (!read.ok) throw new Error(read.faults.map(({ message }) => message).join('\n'))
  const { contacts, body } = fromProblem(read.problem)
  const weighing = weigh(contacts, body)
  return { ...weighing, load: Object.fromEntries(weighing.contacts.map((c) => [c.id, c])) }
}

const point = (id: string, at: Place, more = {}) => ({
  id,
  vertices: [at],
  normal: [0, 1, 0],
  friction: 0.5,
  ...more,
})
const down = (force: number, x: number, y = 0) => ({ force: [0, -force, 0], at: [x, y, 0] })

describe('beams and levers', () => {
  /**
   * @checks scaffold with a person on it, two supports
   * @against 711 and 466 N
   * @from University Physics vol. 1, §12.2; read
   * @within 0.6 N
   */
  it('scaffold on two supports (University Physics vol. 1, §12.2; read)', () => {
    const { load, push } = weighed({
      gravity: 9.8,
      mass: 70,
      com: [3, 0, 0],
      loads: [down(50 * 9.8, 1.5)],
      contacts: [point('near', [0, 0, 0]), point('far', [6, 0, 0])],
    })
    expect(Math.abs((load.near?.load ?? 0) - 711)).toBeLessThan(0.6)
    expect(Math.abs((load.far?.load ?? 0) - 466)).toBeLessThan(0.6)
    expect(push.size).toBeLessThan(1e-8)
  })

  /**
   * @checks beam with overhangs, two supports
   * @against 196.7 and 393.3 lb
   * @from Baker & Haynes, Engineering Statics, ch. 7; read
   * @within 0.05 lb
   */
  it('beam with overhangs (Baker & Haynes, Engineering Statics, ch. 7; read)', () => {
    const { load } = weighed({
      gravity: 9.80665,
      mass: 100 * 0.45359237,
      com: [6 * INCH, 0, 0],
      loads: [
        [150, 12],
        [100, 18],
        [120, -5],
        [120, 29],
      ].map(([w, x]) => down((w as number) * POUND, (x as number) * INCH)),
      contacts: [point('left', [0, 0, 0]), point('right', [18 * INCH, 0, 0])],
    })
    expect((load.left?.load ?? 0) / POUND).toBeCloseTo(196.7, 1)
    expect((load.right?.load ?? 0) / POUND).toBeCloseTo(393.3, 1)
  })

  /**
   * @checks car, by its axles
   * @against 52 % on the front axle
   * @from University Physics vol. 1, Ex. 12.1; read
   * @within 5e-10
   */
  it('car: 52 % on the front axle puts the centre 1.3 m ahead of the rear one (University Physics Ex. 12.1; read)', () => {
    const { load } = weighed({
      mass: 1400,
      com: [1.3, 0.5, 0],
      contacts: [point('rear', [0, 0, 0]), point('front', [2.5, 0, 0])],
    })
    expect(load.front?.share).toBeCloseTo(0.52, 9)
  })

  /**
   * @checks seesaw: where it balances, and its pivot
   * @against 1.3 m and 568 N
   * @from College Physics 2e, Ex. 9.1; read
   * @within 1.25 … 1.35 m, 0.5 N
   */
  it('seesaw (College Physics 2e Ex. 9.1; read)', () => {
    const at = (x: number) =>
      weighed({
        gravity: 9.8,
        mass: 26,
        com: [-1.6, 0.5, 0],
        loads: [down(32 * 9.8, x, 0.5)],
        size: 3.2,
        contacts: [point('pivot', [0, 0, 0])],
      })
    const level = at(1.3)
    expect(level.push.size).toBeLessThan(1e-6)
    expect(level.load.pivot?.load).toBeCloseTo(568, 0)
    // Anywhere else nothing holds it.
    for (const x of [1.25, 1.35]) expect(at(x).push.size).toBeGreaterThan(0.01)
  })

  /**
   * @checks pole in two hands
   * @against 16.3 and 32.7 N
   * @from College Physics 2e, Ex. 9.2; read
   * @within 0.05 N
   */
  it('pole in two hands (College Physics Ex. 9.2; read)', () => {
    const { load } = weighed({
      gravity: 9.8,
      mass: 5,
      com: [0.6, 1, 0],
      contacts: [point('left', [0, 1, 0]), point('right', [0.9, 1, 0])],
    })
    expect(load.left?.load).toBeCloseTo(16.3, 1)
    expect(load.right?.load).toBeCloseTo(32.7, 1)
  })

  /**
   * @checks man on a sawhorse of four legs
   * @against 392.0 and 171.5 N a leg
   * @from University Physics vol. 1, §12.2; derived
   * @within 0.05 N
   */
  it('man on a sawhorse of four legs (University Physics §12.2; statement read, answer derived)', () => {
    const { load, limbs } = weighed({
      gravity: 9.8,
      mass: 25,
      com: [1, 0.8, 0],
      loads: [down(90 * 9.8, 1.5, 0.8)],
      contacts: [-0.2, 0.2].flatMap((z) => [
        point(`near${z > 0}`, [0, 0, z], { limb: 'near' }),
        point(`far${z > 0}`, [2, 0, z], { limb: 'far' }),
      ]),
    })
    for (const leg of ['fartrue', 'farfalse']) expect(load[leg]?.load).toBeCloseTo(392.0, 1)
    for (const leg of ['neartrue', 'nearfalse']) expect(load[leg]?.load).toBeCloseTo(171.5, 1)
    expect(limbs.map(({ id, load: sum }) => [id, Math.round(sum)])).toEqual([
      ['near', 343],
      ['far', 784],
    ])
  })
})

describe('ladders on a smooth wall', () => {
  /** Foot at 0, top against the wall at x = reach; it leans on the wall, which pushes back. */
  const ladder = (
    length: number,
    angle: number,
    weight: number,
    at: number,
    friction: number,
    loads: object[] = [],
  ) => {
    const [c, s] = [Math.cos(angle), Math.sin(angle)]
    return weighed({
      gravity: 9.8,
      mass: weight / 9.8,
      com: [at * c, at * s, 0],
      size: length,
      loads,
      contacts: [
        point('floor', [0, 0, 0], { friction }),
        point('wall', [length * c, length * s, 0], { normal: [-1, 0, 0], friction: 0 }),
      ],
    })
  }

  /**
   * @checks ladder on a smooth wall: wall, floor, friction it needs
   * @against 150.7 N, 400 N, 0.377
   * @from University Physics vol. 1, Ex. 12.5; read
   * @within 0.05 N, 0.0005 N, 0.375 … 0.378
   */
  it('ladder of 400 N (University Physics Ex. 12.5; read)', () => {
    const angle = (53 * Math.PI) / 180
    const { load, push } = ladder(5, angle, 400, 2.5, 0.4)
    expect(push.size).toBeLessThan(1e-6)
    expect(load.wall?.load).toBeCloseTo(150.7, 1)
    expect(load.floor?.load).toBeCloseTo(400, 3)
    expect(load.floor?.force[0]).toBeCloseTo(150.7, 1)
    // It needs a friction of 0.377.
    expect(load.floor?.frictionUsed).toBeCloseTo(0.377 / 0.4, 2)
    expect(ladder(5, angle, 400, 2.5, 0.378).push.size).toBeLessThan(1e-6)
    expect(ladder(5, angle, 400, 2.5, 0.375).push.size).toBeGreaterThan(1e-4)
  })

  /**
   * @checks ladder at four angles: when it stands
   * @against friction of at least half the cotangent
   * @from University Physics vol. 1, Ex. 12.5; derived
   * @within 0.002
   */
  it.each([30, 45, 60, 75])('at %d° stands where μ ≥ ½ cot β (the same, in general)', (degrees) => {
    const angle = (degrees * Math.PI) / 180
    const least = 0.5 / Math.tan(angle)
    expect(ladder(4, angle, 300, 2, least + 0.002).push.size).toBeLessThan(1e-6)
    expect(ladder(4, angle, 300, 2, least - 0.002).push.size).toBeGreaterThan(1e-4)
  })

  /**
   * @checks ladder with a person on it: floor and wall
   * @against 784 and 132.8 N
   * @from University Physics vol. 1, §12.2; read
   * @within 0.05 N
   */
  it('ladder with a person on it (University Physics §12.2; read)', () => {
    const angle = Math.acos(2 / 6)
    const person = { force: [0, -70 * 9.8, 0], at: [3 * Math.cos(angle), 3 * Math.sin(angle), 0] }
    const { load } = ladder(6, angle, 98, 2, 0.5, [person])
    expect(load.floor?.load).toBeCloseTo(784, 3)
    expect(load.floor?.force[0]).toBeCloseTo(132.8, 1)
  })
})

describe('crates', () => {
  const base = (half: number, friction: number) => ({
    id: 'base',
    vertices: [
      [-half, 0, -half],
      [-half, 0, half],
      [half, 0, half],
      [half, 0, -half],
    ],
    normal: [0, 1, 0],
    friction,
  })

  /** 20 kg, pushed level at the height of its base, so that it doesn't tip. */
  const pushed = (force: number, friction: number) =>
    weighed({
      gravity: 9.8,
      mass: 20,
      com: [0, 0.1, 0],
      size: 1,
      loads: [{ force: [force, 0, 0], at: [0, 0, 0] }],
      contacts: [base(0.5, friction)],
    })

  /**
   * @checks crate pushed with 20, 30, 120 N: friction
   * @against 20, 30, 120 N
   * @from University Physics vol. 1, §6.2; read
   * @within 5e-5 N
   */
  it.each([20, 30, 120])(
    '20 kg pushed with %d N: friction as large (University Physics §6.2; read)',
    (force) => {
      const { load, push } = pushed(force, 0.7)
      expect(push.size).toBeLessThan(1e-6)
      expect(load.base?.force[0]).toBeCloseTo(-force, 4)
      expect(load.base?.frictionUsed).toBeCloseTo(force / (0.7 * 196), 4)
    },
  )

  /**
   * @checks crate pushed with 180 N: friction and how it speeds up
   * @against 118 N, 3.1 m/s²
   * @from University Physics vol. 1, §6.2; read
   * @within 0.6 N, 0.05 m/s²
   */
  it('slides at 180 N: 118 N of friction and 3.10 m/s² (the same; read)', () => {
    expect(pushed(180, 0.7).push.size).toBeGreaterThan(0.1)
    // Sliding, with the kinetic 0.6, what is left of the push over friction's 118 N accelerates it.
    const accelerating = (a: number) => pushed(180 - 20 * a, 0.6)
    const exact = (180 - 0.6 * 196) / 20
    expect(exact).toBeCloseTo(3.1, 1)
    const { load, push } = accelerating(exact + 1e-9)
    expect(push.size).toBeLessThan(1e-6)
    expect(Math.abs((load.base?.force[0] ?? 0) + 118)).toBeLessThan(0.6)
    expect(load.base?.frictionUsed).toBeCloseTo(1, 6)
    expect(accelerating(3.05).push.size).toBeGreaterThan(1e-3)
  })

  /**
   * @checks crate pushed high or low: when it tips or slides
   * @against tips at 66.7 lb, slides at 75 lb
   * @from Mississippi State University, statics notes; derived
   * @within 0.2 lb, 0.1 lb
   */
  it('tips or slides (Mississippi State University statics notes; read, limits derived)', () => {
    const box = (pounds: number, inches: number) =>
      weighed({
        gravity: 9.80665,
        mass: 250 * 0.45359237,
        com: [0, 30 * INCH, 0],
        size: 60 * INCH,
        loads: [{ force: [pounds * POUND, 0, 0], at: [0, inches * INCH, 0] }],
        contacts: [base(16 * INCH, 0.3)],
      }).push.size
    expect(box(60, 60)).toBeLessThan(1e-6)
    // At 60 in.
    const tips = 66.7
    expect(box(tips - 0.2, 60)).toBeLessThan(1e-6)
    expect(box(tips + 0.2, 60)).toBeGreaterThan(1e-4)
    // Low down.
    const slides = 75
    expect(box(slides - 0.1, 10)).toBeLessThan(1e-6)
    expect(box(slides + 0.1, 10)).toBeGreaterThan(1e-4)
  })
})

describe('people as levers (derived from de Leva 1996, Table 4, male)', () => {
  /** Shoulder joints to hip joints, mm (the table's MIDS–MIDH row; read). */
  const SHOULDERS_TO_HIPS = 515.5
  const row = (part: Part) => DE_LEVA[part].male
  const trunkBelow = {
    lowerTrunk: 0,
    middleTrunk: row('lowerTrunk').length,
    upperTrunk: row('lowerTrunk').length + row('middleTrunk').length,
  }
  const neck = trunkBelow.upperTrunk + row('upperTrunk').length

  /** Mass (%) and place (mm from the hips towards the head) of head and trunk; the table counts them from above. */
  const upper = (['head', 'upperTrunk', 'middleTrunk', 'lowerTrunk'] as const).map((part) => {
    const from = part === 'head' ? neck : trunkBelow[part]
    return [row(part).mass, from + row(part).length * (1 - row(part).centre / 100)] as const
  })
  const arms = [
    2 * (row('upperArm').mass + row('forearm').mass + row('hand').mass),
    SHOULDERS_TO_HIPS,
  ] as const

  const handsShare = (masses: readonly (readonly [number, number])[], from: number, to: number): number => {
    const total = masses.reduce((sum, [mass]) => sum + mass, 0)
    const centre = masses.reduce((sum, [mass, x]) => sum + mass * x, 0) / total
    const side = (id: string, x: number) =>
      [-0.2, 0.2].map((z) => point(`${id}${z > 0 ? 'L' : 'R'}`, [x / 1000, 0, z], { limb: id }))
    const { limbs } = weighed({
      mass: (73 * total) / 100,
      com: [centre / 1000, 0.4, 0],
      size: 1.741,
      contacts: [...side('hands', to), ...side('behind', from)],
    })
    return limbs.find(({ id }) => id === 'hands')?.vertical ?? 0
  }

  /**
   * @checks the hands’ share on hands and knees, as a lever
   * @against 38.5 %
   * @from de Leva (1996), Table 4; derived
   * @within 0.4 %
   */
  it('hands and knees, thighs and arms upright: the hands carry 38.5 %', () => {
    const shank = -row('shank').length * (row('shank').centre / 100)
    // The feet lie behind the ankles, soles up; where along them the source leaves open.
    const foot = -row('shank').length - 0.05 * row('foot').length
    const masses = [
      ...upper,
      arms,
      [2 * row('thigh').mass, 0],
      [2 * row('shank').mass, shank],
      [2 * row('foot').mass, foot],
    ] as const
    expect(Math.abs(handsShare(masses, 0, SHOULDERS_TO_HIPS) - 0.385)).toBeLessThan(0.004)
  })

  /**
   * @checks the hands’ share on hands and toes, as a lever
   * @against 69.9 %
   * @from de Leva (1996), Table 4; derived
   * @within 0.4 %
   */
  it('on hands and toes with straight arms: 69.9 % (measured 69.16 %: Suprak et al. 2011, from memory)', () => {
    const thigh = -row('thigh').length * (row('thigh').centre / 100)
    const shank = -row('thigh').length - row('shank').length * (row('shank').centre / 100)
    const ankle = -row('thigh').length - row('shank').length
    // Along the body's own line, which slopes: shares don't notice. The toes bear square below the ankles.
    const masses = [
      ...upper,
      arms,
      [2 * row('thigh').mass, thigh],
      [2 * row('shank').mass, shank],
      [2 * row('foot').mass, ankle],
    ] as const
    expect(Math.abs(handsShare(masses, ankle, SHOULDERS_TO_HIPS) - 0.699)).toBeLessThan(0.004)
  })
})
