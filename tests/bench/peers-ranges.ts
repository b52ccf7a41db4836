import loadHighs from 'highs'
import { devDependencies } from '../../package.json'
import { random } from '../../src/space/random'
import { LoadRanges } from '../../src/weigh/ranges'
import { split } from '../../src/weigh/split'
import { ContactSystem } from '../../src/weigh/system'
import { generators, type Row, rangeRows } from '../outside/programmes'
import type { Stance } from '../weigh/by-hand'
import { anyStance, kneeling } from '../weigh/stances'
import type { Agreement, Peer } from './peer'

/*
 * Least and most load of every contact, against HiGHS on the programmes that tests/outside/ranges.test.ts writes
 * out. HiGHS gets them as sparse arrays beforehand, through its interface for models that are solved again and
 * again: what is timed is its solving alone. Of ours, laying the programmes out is timed too. Times are for one
 * programme: one end of one contact's range.
 */

/** Few enough for all their models to fit into the memory of HiGHS. */
const STANCES = 24
/** Largest difference that two right answers can have: HiGHS is asked for 1e-9, and its rows add up. */
const SAME = 1e-6

type Highs = Awaited<ReturnType<typeof loadHighs>>
type Model = ReturnType<Highs['createModel']>

export async function peersOfRanges(): Promise<Peer[]> {
  const highs = await loadHighs()
  return [
    { input: 'kneeling on five pads of eight vertices', make: kneeling },
    { input: 'random problems, 2–6 pads of 1–12 vertices', make: anyStance },
  ].flatMap(({ input, make }) => {
    const next = random(1)
    const posed = Array.from({ length: STANCES }, () => new Posed(make(next)))
    return [asItComes(highs, input, posed), atItsFastest(highs, input, posed)]
  })
}

/** A stance with its split, and its programmes' columns and rows. */
class Posed {
  readonly system = new ContactSystem()
  readonly rows: readonly Row[]
  /** The costs of one programme after the other: least and most of each contact. */
  readonly costs: readonly Float64Array[]
  /** The answers of the last run, in the same order, signs as the costs have them. */
  readonly ours: number[] = []
  readonly theirs: number[] = []
  private readonly group: Uint8Array

  constructor(readonly stance: Stance) {
    const { contacts, body } = stance
    this.system.load(contacts, body)
    const { push } = split(this.system)
    this.system.sumUp()
    const columns = generators(stance, this.system)
    this.rows = rangeRows(stance, this.system, push, columns)
    this.costs = contacts.flatMap((_, contact) =>
      [1, -1].map((sign) => Float64Array.from(columns, ({ c }) => (c === contact ? sign : 0))),
    )
    this.group = new Uint8Array(contacts.length)
  }

  solveOurs(): void {
    ranges.begin(this.system)
    for (let c = 0; c < this.group.length; c++) {
      this.group.fill(0)
      this.group[c] = 1
      this.ours[2 * c] = ranges.least(this.group)
      this.ours[2 * c + 1] = -ranges.most(this.group)
    }
  }

  model(highs: Highs, costs: Float64Array, options: Readonly<Record<string, number | string>>): Model {
    const model = highs.createModel(asArrays(highs, this.rows, costs))
    model.options.set({
      output_flag: false,
      primal_feasibility_tolerance: 1e-9,
      dual_feasibility_tolerance: 1e-10,
      ...options,
    })
    return model
  }
}

const ranges = new LoadRanges()

function asArrays(highs: Highs, rows: readonly Row[], costs: Float64Array) {
  const numRows = rows.length
  const numCols = costs.length
  const starts = [0]
  const indices: number[] = []
  const values: number[] = []
  for (let j = 0; j < numCols; j++) {
    rows.forEach(({ terms }, i) => {
      if (terms[j] === 0) return
      indices.push(i)
      values.push(terms[j] as number)
    })
    starts.push(indices.length)
  }
  return {
    numCols,
    numRows,
    colCost: costs,
    colLower: new Float64Array(numCols),
    colUpper: new Float64Array(numCols).fill(highs.infinity),
    rowLower: rows.map(({ sense, bound }) => (sense === '=' ? bound : -highs.infinity)),
    rowUpper: rows.map(({ bound }) => bound),
    matrix: { format: 'csc', numRows, numCols, starts, indices, values },
  } as const
}

/** Its own options and no earlier answer: what a programme costs that is handed to it. */
function asItComes(highs: Highs, input: string, posed: readonly Posed[]): Peer {
  const programmes = posed.flatMap((one) =>
    one.costs.map((costs, i) => ({ model: one.model(highs, costs, {}), answer: [one.theirs, i] as const })),
  )
  return {
    ...between(input, posed),
    how: 'with its own options, each programme from a new start, its model handed over before',
    goal: 100,
    theirs: {
      name: 'HiGHS',
      input,
      goal: {},
      ready: (turn) => void at(programmes, turn).model.clearSolver(),
      run: (turn) => {
        const {
          model,
          answer: [answers, i],
        } = at(programmes, turn)
        model.run()
        answers[i] = model.getObjectiveValue()
      },
    },
  }
}

/** The fastest of the settings tried: no presolve, the primal simplex, every programme from the last one's basis. */
function atItsFastest(highs: Highs, input: string, posed: readonly Posed[]): Peer {
  const options = { presolve: 'off', simplex_strategy: 4 }
  const models = posed.map((one) => one.model(highs, one.costs[0] as Float64Array, options))
  return {
    ...between(input, posed),
    how: 'at the fastest settings tried (no presolve, primal simplex, each programme of a stance from the last one’s basis), its model handed over before',
    theirs: {
      name: 'HiGHS',
      input,
      goal: {},
      parts: (turn) => at(posed, turn).costs.length,
      ready: (turn) => void at(models, turn).clearSolver(),
      run: (turn) => {
        const { theirs, costs } = at(posed, turn)
        const model = at(models, turn)
        costs.forEach((cost, i) => {
          model.changeColsCost({ kind: 'range', from: 0, to: cost.length - 1 }, cost)
          model.run()
          theirs[i] = model.getObjectiveValue()
        })
      },
    },
  }
}

function between(input: string, posed: readonly Posed[]) {
  return {
    name: 'least or most of a contact',
    library: `HiGHS ${devDependencies.highs}`,
    ours: {
      name: 'ranges',
      input,
      goal: {},
      parts: (turn: number) => at(posed, turn).costs.length,
      run: (turn: number) => at(posed, turn).solveOurs(),
    },
    agree: (): Agreement => {
      let difference = 0
      let compared = 0
      for (const { ours, theirs } of posed)
        theirs.forEach((their, i) => {
          difference = Math.max(difference, Math.abs(their - (ours[i] as number)))
          compared++
        })
      if (compared === 0) throw new Error('nothing was compared')
      if (!(difference < SAME)) throw new Error(`${input}: HiGHS differs by ${difference} of the weight`)
      return { difference, of: 'the weight' }
    },
  }
}

const at = <T>(list: readonly T[], turn: number): T => list[turn % list.length] as T
