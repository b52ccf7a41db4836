/**
 * An id that none of the things has: the prefix, a hyphen and one more than the greatest number among the
 * ids with that prefix. The same plan gives the same id, whoever asks and whenever.
 */
export function freshId(prefix: string, things: Iterable<{ readonly id: string }>): string {
  let greatest = 0
  const start = `${prefix}-`
  for (const { id } of things) {
    const number = id.startsWith(start) ? id.slice(start.length) : ''
    if (/^[0-9]{1,9}$/.test(number)) greatest = Math.max(greatest, Number(number))
  }
  return `${start}${greatest + 1}`
}
