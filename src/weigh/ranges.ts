import { ContactProgramme } from './programme'
import type { ContactSystem } from './system'

/**
 * How little and how much normal load contacts, or groups of them, can carry between them while the body's
 * wrench, less the push, stays balanced within the load limits. Loads in W. The split's own load of a group
 * always lies in its range.
 */
export class LoadRanges {
  private readonly programme = new ContactProgramme()
  private system!: ContactSystem

  /** Takes the forces of the split as `system.sumUp` left them: they give `system.borne`, so something does. */
  begin(system: ContactSystem): void {
    this.system = system
    const active = new Uint8Array(system.contacts).fill(1)
    this.programme.begin(system, { active, wrench: system.borne, axis: null, limits: true })
  }

  /** The least sum of the normal loads of the contacts where `group` is 1. */
  least(group: Uint8Array): number {
    const load = this.system.loadOf(group)
    if (load === 0) return 0
    this.setCost(group, 1)
    return Math.max(0, Math.min(this.programme.optimise(), load))
  }

  /** The greatest sum of the normal loads of the contacts where `group` is 1. */
  most(group: Uint8Array): number {
    this.setCost(group, -1)
    return Math.max(-this.programme.optimise(), this.system.loadOf(group))
  }

  private setCost(group: Uint8Array, cost: number): void {
    const { loadCost } = this.programme.columns
    for (let c = 0; c < this.system.contacts; c++) loadCost[c] = group[c] === 1 ? cost : 0
  }
}
