import { LIMITS } from '../../document/limits'
import { deleteTake, duplicateTake, newTakeId } from '../../plan/edit/takes'
import type { Command } from './command'

/** Takes of one plan: trying another lean without losing the first. */
export const takeCommands = (): Command[] => [
  {
    id: 'duplicate-take',
    group: 'Takes',
    title: 'Duplicate take',
    hint: 'Copies this take to try another lean; the first stays behind it for before and after.',
    keys: ['T'],
    mnemonic: 'T for take',
    when: ({ plan }) => plan.takes.length < LIMITS.takes,
    run: (desk) => {
      const { takeId, take, plan } = desk
      const added = newTakeId(plan)
      desk.edit('Duplicate take', (before) => duplicateTake(before, takeId, `${take.name}, changed`))
      desk.setTake(added)
      desk.setView({ compareTakeId: takeId })
      desk.say(`${desk.take.name} is a copy to change; ${take.name} stays behind it.`)
    },
  },
  {
    id: 'swap-takes',
    group: 'Takes',
    title: 'Swap the two takes',
    hint: 'Puts the take behind in front: before and after in a blink.',
    keys: ['B'],
    mnemonic: 'B for before and after',
    when: ({ compared }) => compared !== null,
    run: (desk) => {
      const { takeId, compared } = desk
      if (compared === null) return
      desk.setTake(compared.id)
      desk.setView({ compareTakeId: takeId })
    },
  },
  {
    id: 'delete-take',
    group: 'Takes',
    title: 'Delete take',
    hint: 'Takes this take out of the plan; undo brings it back. The only take stays.',
    keys: [],
    when: ({ plan }) => plan.takes.length > 1,
    run: (desk) => {
      const { name } = desk.take
      desk.edit('Delete take', (plan) => deleteTake(plan, desk.takeId))
      desk.say(`Take ${name} is deleted; undo brings it back.`)
    },
  },
]
