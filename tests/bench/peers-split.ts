import { solveQP } from 'quadprog'
import { devDependencies } from '../../package.json'
import { random } from '../../src/space/random'
import type { Vec3 } from '../../src/space/vec'
import { split } from '../../src/weigh/split'
import { ContactSystem } from '../../src/weigh/system'
import { momentOf, neededBy, type Stance, verticesOf } from '../weigh/by-hand'
import { kneeling } from '../weigh/stances'
import type { Agreement, Peer } from './peer'

/*
 * The split against quadprog, a library for quadratic programmes (Goldfarb and Idnani's method). Without friction the
 * two solve the very same problem. With friction a quadratic programme has no round cones: it gets pyramids
 * inside them, and its least is a little more. Its matrices are written beforehand and not timed.
 */

const STANCES = 40
const INPUT = 'kneeling on five pads of eight vertices'

/** A quadratic programme's arrays, as `solveQP` takes them. */
type Programme = Parameters<typeof solveQP>

export function peersOfSplit(): Peer[] {
  return [
    peer({
      name: 'split without friction',
      how: 'on the same problem, its matrices written before',
      stances: stances((contact) => ({ ...contact, friction: 0 })),
      write: smooth,
      most: 1e-9,
    }),
    peer({
      name: 'split with friction',
      how: 'with eight-sided pyramids inside the cones, its matrices written before',
      stances: stances((contact) => contact),
      write: withPyramids,
      most: 0.01,
    }),
  ]
}

function stances(change: (contact: Stance['contacts'][number]) => Stance['contacts'][number]): Stance[] {
  const next = random(1)
  return Array.from({ length: STANCES }, () => {
    const { contacts, body } = kneeling(next)
    return { contacts: contacts.map(change), body }
  })
}

interface Asked {
  readonly name: string
  readonly how: string
  readonly stances: readonly Stance[]
  readonly write: (stance: Stance, system: ContactSystem) => Programme
  /** Largest part by which quadprog's sum of squares may be above ours. */
  readonly most: number
}

function peer({ name, how, stances, write, most }: Asked): Peer {
  const system = new ContactSystem()
  const programmes = stances.map((stance) => {
    system.load(stance.contacts, stance.body)
    return write(stance, system)
  })
  const solveOurs = ({ contacts, body }: Stance) => {
    system.load(contacts, body)
    return split(system)
  }
  // quadprog works in the matrices it is given, so each run gets fresh ones.
  const copy = (turn: number) => structuredClone(programmes[turn % STANCES] as Programme)
  let next = copy(0)
  return {
    name,
    library: `quadprog ${devDependencies.quadprog}`,
    how,
    ours: {
      name: 'split',
      input: INPUT,
      goal: {},
      run: (turn) => void solveOurs(stances[turn % STANCES] as Stance),
    },
    theirs: {
      name: 'quadprog',
      input: INPUT,
      goal: {},
      ready: (turn) => {
        next = copy(turn)
      },
      run: () => void solveQP(...next),
    },
    agree: (): Agreement => {
      let difference = 0
      stances.forEach((stance, i) => {
        const { message, value } = solveQP(...copy(i))
        if (message) throw new Error(`quadprog: ${message}`)
        solveOurs(stance)
        const own = sumOfSquares(stance, system) / 2
        difference = Math.max(difference, Math.abs((value[1] as number) / own - 1))
      })
      if (!(difference < most)) throw new Error(`${name}: quadprog’s least differs by ${difference}`)
      return { difference, of: 'the least Σ f²/k' }
    },
  }
}

function sumOfSquares({ contacts, body }: Stance, { force }: ContactSystem): number {
  return verticesOf(contacts, body).reduce(
    (sum, { stiffness }, j) =>
      sum + force.slice(3 * j, 3 * j + 3).reduce((part, f) => part + f * f, 0) / stiffness,
    0,
  )
}

/** One unknown a vertex, at least nought; only force up and the moments about x and z are in question. */
function smooth({ contacts, body }: Stance): Programme {
  const vertices = verticesOf(contacts, body)
  const rows = [1, 3, 5]
  const needed = neededBy(body)
  const columns = vertices.map(({ normal, arm }, j) => {
    const wrench = [...normal, ...momentOf(arm, normal)]
    return [...rows.map((r) => wrench[r] as number), ...vertices.map((_, i) => (i === j ? 1 : 0))]
  })
  return [
    diagonal(vertices.map(({ stiffness }) => 1 / stiffness)),
    fromOne(columns.map(() => 0)),
    fromOne(columns.map(fromOne)),
    fromOne([...rows.map((r) => needed[r] as number), ...vertices.map(() => 0)]),
    rows.length,
  ]
}

/** Three unknowns a vertex, along n, u, v, inside a pyramid of eight sides whose edges lie on the cone. */
function withPyramids({ contacts, body }: Stance, { axes }: ContactSystem): Programme {
  const vertices = verticesOf(contacts, body)
  const columns = vertices.flatMap(({ contact, arm }, j) => {
    const at = 9 * contacts.indexOf(contact)
    return [0, 1, 2].map((axis) => {
      const direction = [...axes.slice(at + 3 * axis, at + 3 * axis + 3)] as unknown as Vec3
      const sides = vertices.flatMap((_, i) =>
        SIDES.map((angle) => (i === j ? sideOf(angle, contact.friction, axis) : 0)),
      )
      return [...direction, ...momentOf(arm, direction), ...sides]
    })
  })
  return [
    diagonal(vertices.flatMap(({ stiffness }) => [1, 1, 1].map((one) => one / stiffness))),
    fromOne(columns.map(() => 0)),
    fromOne(columns.map(fromOne)),
    fromOne([...neededBy(body), ...vertices.flatMap(() => SIDES.map(() => 0))]),
    6,
  ]
}

/** The middles of the pyramid's sides. */
const SIDES = Array.from({ length: 8 }, (_, k) => ((k + 0.5) * Math.PI) / 4)

/** μ cos 22.5° · n − cos θ · u − sin θ · v ≥ 0: the factor of n, u or v. */
function sideOf(angle: number, friction: number, axis: number): number {
  if (axis === 0) return friction * Math.cos(Math.PI / 8)
  return axis === 1 ? -Math.cos(angle) : -Math.sin(angle)
}

const diagonal = (values: readonly number[]): number[][] =>
  fromOne(values.map((value, i) => fromOne(values.map((_, j) => (i === j ? value : 0)))))

/** The array with an entry before its first, which quadprog leaves out. */
function fromOne<T>(values: readonly T[]): T[] {
  return [values[0] as T, ...values]
}
