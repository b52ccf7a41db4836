import { flushSync } from 'svelte'

/** Runs an effect that reads a state, changes that state once, and tells what the effect saw. */
export function seenByAnEffect(first: number, second: number): number[] {
  const seen: number[] = []
  let state = $state(first)
  const stop = $effect.root(() => {
    $effect(() => {
      seen.push(state)
    })
  })
  flushSync()
  state = second
  flushSync()
  stop()
  return seen
}
