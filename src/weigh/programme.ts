import { ConeColumns } from './cones'
import { LIMITLESS, LP_OVER_LIMIT } from './constants'
import { Simplex } from './simplex'
import type { ContactSystem } from './system'

/** What the contacts of a programme are to give, in the system's units. */
export interface Task {
  /** 1 where a contact takes part. */
  readonly active: Uint8Array
  /** Force and moment to be given. */
  readonly wrench: Float64Array
  /** Where set, moments are balanced only about this axis, through the centre of mass. */
  readonly axis: Float64Array | null
  /** Whether load limits count. */
  readonly limits: boolean
}

/**
 * Linear programmes over all the forces that contacts can give, one objective after the other. Costs are set
 * in `columns`. A contact's load limit gets its row only when an answer runs over it, which is seldom; the
 * programme then begins again with that row and keeps it.
 */
export class ContactProgramme {
  readonly columns = new ConeColumns()
  private readonly simplex = new Simplex()
  private system!: ContactSystem
  private task!: Task
  private limited = new Uint8Array(8)
  private loads = new Float64Array(8)

  /** Begins a task, with no cost on anything. False where the contacts can't do it. */
  begin(system: ContactSystem, task: Task): boolean {
    this.system = system
    this.task = task
    if (system.contacts > this.limited.length) {
      this.limited = new Uint8Array(2 * system.contacts)
      this.loads = new Float64Array(2 * system.contacts)
    }
    this.limited.fill(0)
    this.columns.load(system)
    this.columns.active.set(task.active)
    return this.settle()
  }

  /** The least total cost. */
  optimise(): number {
    let least = this.simplex.optimise()
    while (this.limitOverloaded()) {
      this.settle()
      least = this.simplex.optimise()
    }
    return least
  }

  /** Adds up the moments of the forces of the last answer, W L about the centre of mass. */
  sumMoments(moment: Float64Array): void {
    this.sum = moment
    moment.fill(0)
    this.simplex.solution(this.addMoment)
  }

  /** Finds forces that do the task within every limit. */
  private settle(): boolean {
    do {
      this.layOut()
      if (!this.simplex.findFeasible()) return false
    } while (this.limitOverloaded())
    return true
  }

  private layOut(): void {
    const { columns, simplex, limited, task, system } = this
    const rhs = simplex.begin(columns, columns.layOut(task.axis, limited))
    rhs.set(task.wrench)
    if (task.axis !== null) {
      rhs[3] = 0
      for (let i = 0; i < 3; i++)
        rhs[3] = (rhs[3] as number) + (task.axis[i] as number) * (task.wrench[3 + i] as number)
    }
    rhs[columns.totalRow] = task.limits ? system.totalCap : LIMITLESS
    simplex.adopt(columns.slackOf(columns.totalRow), columns.totalRow)
    for (let c = 0; c < system.contacts; c++) {
      const row = columns.limitRow[c] as number
      if (row < 0) continue
      rhs[row] = system.caps[c] as number
      simplex.adopt(columns.slackOf(row), row)
    }
  }

  /** Marks the contacts that the last answer loads over their limit; whether there are any. */
  private limitOverloaded(): boolean {
    if (!this.task.limits) return false
    const { loads, limited, system } = this
    loads.fill(0)
    this.simplex.solution(this.addLoad)
    let found = false
    for (let c = 0; c < system.contacts; c++) {
      if (limited[c] === 1 || (loads[c] as number) <= (system.caps[c] as number) + LP_OVER_LIMIT) continue
      limited[c] = 1
      found = true
    }
    return found
  }

  private sum: Float64Array = new Float64Array(3)
  private readonly addMoment = (column: number, value: number): void =>
    this.columns.addMoment(column, value, this.sum)
  private readonly addLoad = (column: number, value: number): void => {
    if (this.columns.isSlack(column)) return
    const contact = this.columns.contactOf(column)
    this.loads[contact] = (this.loads[contact] as number) + value
  }
}
