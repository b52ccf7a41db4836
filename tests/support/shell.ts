import type { Plan } from '../../src/document/plan'
import { fakeClock } from '../../src/keep/fakes/clock'
import { memoryFiles } from '../../src/keep/fakes/files'
import { memoryLocks } from '../../src/keep/fakes/locks'
import { memoryStorage } from '../../src/keep/fakes/storage'
import type { TextStorage } from '../../src/keep/storage'
import { helpCommands } from '../../src/screen/commands/help'
import { keyCommands } from '../../src/screen/commands/keys'
import { planCommands } from '../../src/screen/commands/plans'
import { sheetCommands } from '../../src/screen/commands/sheet'
import { takeCommands } from '../../src/screen/commands/takes'
import { timeCommands } from '../../src/screen/commands/time'
import { trialCommands } from '../../src/screen/commands/trial'
import { undoCommands } from '../../src/screen/commands/undo'
import { viewCommands } from '../../src/screen/commands/view'
import { Desk } from '../../src/screen/desk.svelte'
import { type FrameClock, Playback } from '../../src/screen/playback.svelte'
import { Keeping } from '../../src/screen/shell/keeping.svelte'
import { Shell } from '../../src/screen/shell/shell.svelte'
import type { WorkerClient } from '../../src/worker/client'
import type { ReadingProblem, SpanProblem, TakeProblem } from '../../src/worker/protocol'
import { readNotesOf } from '../../src/worker/read-notes'
import { leastFramesOf, weighMotionOf } from '../../src/worker/weigh-motion'
import { weighTake } from '../../src/worker/weigh-take'
import { stancePlan } from './plans'

/**
 * A shell on fakes: storage, files and clocks in memory.
 * @param options.weighs whether takes are weighed, at once
 */
export function testShell(
  plan: Plan = stancePlan(),
  options: {
    readonly storage?: TextStorage
    /** Plans that some page has open; give two shells the same one to make them two tabs. */
    readonly held?: Set<string>
    readonly weighs?: boolean
  } = {},
) {
  const storage = options.storage ?? memoryStorage()
  const clock = fakeClock()
  const files = memoryFiles()
  const keeping = new Keeping({ storage, clock, locks: memoryLocks(options.held) })
  const printed: number[] = []
  const desk = new Desk(plan, {
    ...(options.weighs && { worker: weighsAtOnce }),
    files,
    settled: (settled) => keeping.change(settled),
  })
  const frames = fakeFrames()
  const playback = new Playback(desk, frames)
  const shell = new Shell({
    desk,
    playback,
    keeping,
    files,
    demo: () => stancePlan('half-kneel-left', 'The demo'),
    printPage: () => void printed.push(document.querySelectorAll('.print-view').length),
    commands: (shell) => [
      ...planCommands(shell),
      ...undoCommands(),
      ...timeCommands(playback),
      ...keyCommands(),
      ...trialCommands(desk, playback),
      ...sheetCommands(shell),
      ...viewCommands(),
      ...takeCommands(),
      ...helpCommands(shell),
    ],
  })
  return { shell, desk, keeping, files, clock, frames, printed }
}

/** The calculation thread, on this thread: it knows takes, spans and notes, and nothing else. */
const weighsAtOnce: Pick<WorkerClient, 'request'> = {
  request(job, input, listener) {
    const jobs: Readonly<Record<string, () => readonly unknown[]>> = {
      'weigh take': () => [...weighTake(input as TakeProblem)],
      'weigh motion': () => [...weighMotionOf(input as TakeProblem)],
      'least frames': () => [...leastFramesOf(input as SpanProblem)],
      'read notes': () => [...readNotesOf(input as ReadingProblem)],
    }
    const pieces = jobs[job]?.().filter((piece) => piece !== undefined)
    if (pieces === undefined) throw new RangeError(`a test asked for "${job}"`)
    listener.pieces(pieces as never[], true)
  },
}

/** The screen's frames, one at each `show`. */
export function fakeFrames(): FrameClock & { show: (now: number) => void; readonly waiting: number } {
  const waiting = new Map<number, (now: number) => void>()
  let last = 0
  return {
    next(callback) {
      waiting.set(++last, callback)
      return last
    },
    cancel: (id) => void waiting.delete(id),
    show(now) {
      const due = [...waiting.values()]
      waiting.clear()
      for (const callback of due) callback(now)
    },
    get waiting() {
      return waiting.size
    },
  }
}
