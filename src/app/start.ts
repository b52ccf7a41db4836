import type { Plan } from '../document/plan'
import { browserFiles } from '../keep/browser-files'
import { browserStorage } from '../keep/browser-storage'
import { browserCopyBoard } from '../keep/clipboard'
import { browserClock } from '../keep/clock'
import { browserLocks } from '../keep/locks'
import { helpCommands } from '../screen/commands/help'
import { keyCommands } from '../screen/commands/keys'
import { planCommands } from '../screen/commands/plans'
import { sheetCommands } from '../screen/commands/sheet'
import { takeCommands } from '../screen/commands/takes'
import { timeCommands } from '../screen/commands/time'
import { trialCommands } from '../screen/commands/trial'
import { undoCommands } from '../screen/commands/undo'
import { viewCommands } from '../screen/commands/view'
import { Desk } from '../screen/desk.svelte'
import { Playback } from '../screen/playback.svelte'
import { Keeping } from '../screen/shell/keeping.svelte'
import { Shell } from '../screen/shell/shell.svelte'
import { isStill } from '../screen/theme.svelte'
import { WorkerClient } from '../worker/client'
import { fetchDemo } from './demo'
import { preferences } from './preferences'

/** Puts the browser's own tools together and opens the plan that was open last, or the demo. */
export async function start(): Promise<Shell> {
  const keeping = new Keeping({
    storage: browserStorage(),
    clock: browserClock,
    locks: browserLocks(navigator.locks),
  })
  const [demo, last] = await Promise.all([fetchDemo(), keeping.last()])
  const resumed = last?.loaded.kind === 'loaded' ? last.loaded : null
  const files = browserFiles()
  const desk = new Desk(resumed?.plan ?? demo, {
    worker: new WorkerClient(),
    files,
    copyBoard: browserCopyBoard(),
    preferences,
    settled: (plan) => keeping.change(plan),
  })
  const playback = new Playback(desk)
  const shell = new Shell({
    desk,
    playback,
    keeping,
    files,
    demo: () => demo,
    printPage: () => window.print(),
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
  if (last !== null && resumed !== null) void resume(shell, last.id, resumed)
  else {
    void keeping.begin(demo, 'with a change')
    if (last !== null) sayWhyNot(shell, last.loaded)
    else if (!desk.view.welcomed) welcome(shell)
  }
  return shell
}

/** The demo moves, and the doors stand before it; whoever takes hold of anything finds it at rest. */
function welcome({ desk, playback }: Shell): void {
  desk.setPage('doors')
  if (isStill()) return
  playback.play()
  const first = new AbortController()
  const rest = ({ target }: Event) => {
    first.abort()
    const pauses = target instanceof Element && target.closest('[data-command="play"]') !== null
    if (!pauses) playback.stop()
  }
  for (const event of ['pointerdown', 'keydown'])
    window.addEventListener(event, rest, { capture: true, signal: first.signal })
}

async function resume(
  { desk, keeping }: Shell,
  id: string,
  {
    plan,
    at,
    damaged,
  }: { readonly plan: Plan; readonly at: Parameters<Keeping['resume']>[2]; readonly damaged: boolean },
): Promise<void> {
  const claim = await keeping.resume(id, plan, at)
  if (claim === 'elsewhere')
    desk.say('This plan is open in another tab, which writes it: nothing is kept from here.', 'problem')
  else if (damaged) desk.say('The last save was damaged; this is the one before it.', 'problem')
}

function sayWhyNot({ desk }: Shell, loaded: Awaited<ReturnType<Keeping['load']>>): void {
  if (loaded.kind === 'failed') desk.say(loaded.failure.message, 'problem')
  if (loaded.kind === 'damaged')
    desk.say(
      'The plan that was open last is damaged and can’t be opened; the demo is open instead.',
      'problem',
    )
}
