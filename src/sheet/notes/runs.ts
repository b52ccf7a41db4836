/** The runs of numbers from 0 to length − 1 for which `holds`, as [first, last]. */
export function runsOf(length: number, holds: (i: number) => boolean): [number, number][] {
  const runs: [number, number][] = []
  for (let i = 0; i < length; i++) {
    if (!holds(i)) continue
    const run = runs.at(-1)
    if (run && run[1] === i - 1) run[1] = i
    else runs.push([i, i])
  }
  return runs
}

/**
 * Windows of a length over 0 … length − 1 in which something is more than `least`, none overlapping another: of
 * those that overlap the one with the most, the first of equals.
 */
export function windowsOf(
  length: number,
  window: number,
  least: number,
  of: (first: number, last: number) => number,
): [number, number][] {
  const found = Array.from({ length: Math.max(0, length - window) }, (_, i) => ({
    at: i,
    value: of(i, i + window),
  })).filter(({ value }) => value > least)
  const kept: number[] = []
  for (const { at } of found.sort((a, b) => b.value - a.value || a.at - b.at))
    if (kept.every((other) => Math.abs(other - at) >= window)) kept.push(at)
  return kept.sort((a, b) => a - b).map((at) => [at, at + window])
}
