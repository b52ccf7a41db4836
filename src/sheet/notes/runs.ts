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

/** Windows of a length over 0 … length − 1 for which `holds`, none overlapping; of those that overlap the first. */
export function windowsOf(
  length: number,
  window: number,
  holds: (first: number, last: number) => boolean,
): [number, number][] {
  const found: [number, number][] = []
  for (let i = 0; i + window < length; i++) {
    if (!holds(i, i + window)) continue
    found.push([i, i + window])
    i += window - 1
  }
  return found
}
