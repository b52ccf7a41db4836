import type { SetAside } from '../../document/take'
import { SHOWN } from './constants'
import { measure, type NotesOptions, type NotesProblem } from './measure'
import { RULES } from './rules'
import type { Finding, Measured, Note, NoteLevel, Rule } from './types'
import { PASSES } from './types'

export type { NotesOptions, NotesProblem } from './measure'
export type { Note } from './types'

/**
 * Reads a take as a strict reviewer does: every note of every rule, in the order of a pass, within it those
 * that break the weight first. Frames that are not weighed yet give no notes on loads.
 */
export function notesOf(problem: NotesProblem, options: NotesOptions = {}): Notes {
  const steps = notesSteps(problem, options)
  for (;;) {
    const { done, value } = steps.next()
    if (done) return value
  }
}

/** The same, a rule at each step, so that a thread can listen between them. */
export function* notesSteps(problem: NotesProblem, options: NotesOptions = {}): Generator<undefined, Notes> {
  const measured = measure(problem, options)
  const all: Note[] = []
  for (const rule of RULES) {
    yield undefined
    if (measured.stepped && !rule.onBlocking) continue
    for (const finding of rule.fires(measured)) all.push(noteOf(measured, rule, finding))
  }
  const setAside = options.setAside ?? problem.take.setAside
  const isAside = ({ rule, from }: Note) => setAside.some((one) => one.rule === rule && one.from === from)
  const open = all.filter((note) => !isAside(note)).sort(inPassOrder)
  return {
    notes: open,
    shown: firstOf(open),
    aside: all.filter(isAside).map((note) => ({ note, reason: reasonOf(setAside, note) })),
    stepped: measured.stepped,
  }
}

export interface Notes {
  /** All that are open. */
  readonly notes: readonly Note[]
  /** The few to go home with, in the order of a pass. */
  readonly shown: readonly Note[]
  readonly aside: readonly { readonly note: Note; readonly reason: string }[]
  /** Read as stepped blocking: contacts, reach and balance only. */
  readonly stepped: boolean
}

function noteOf(measured: Measured, rule: Rule, { level, ...finding }: Finding): Note {
  const plain = measured.style === 'graphic' && rule.plainInGraphic
  return {
    ...finding,
    rule: rule.id,
    name: rule.name,
    pass: rule.pass,
    level: plain ? 'style' : (level ?? rule.level),
    label: measured.plan.firstFrame + finding.from,
  }
}

const reasonOf = (setAside: readonly SetAside[], { rule, from }: Note): string =>
  setAside.find((one) => one.rule === rule && one.from === from)?.reason ?? ''

/** Those that break the weight before others, then in the order of a pass. */
function firstOf(notes: readonly Note[]): Note[] {
  const byLevel = [...notes].sort((a, b) => LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level))
  return byLevel.slice(0, SHOWN).sort(inPassOrder)
}

const LEVELS: readonly NoteLevel[] = ['breaks', 'look', 'style']

const inPassOrder = (a: Note, b: Note): number =>
  PASSES.indexOf(a.pass) - PASSES.indexOf(b.pass) ||
  LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level) ||
  a.from - b.from
