/**
 * What is wrong with a file. The message is one line: where, what, and what to do about it.
 */
export interface Fault {
  readonly code: FaultCode
  /** Where, as a JSON pointer (RFC 6901): `/takes/0/channels/pelvis.x/2/frame`; empty for the whole file. */
  readonly path: string
  readonly message: string
}

/** Every fault a reader can name. The first two groups end the reading at once. */
export type FaultCode =
  // The file as a whole.
  | 'too-big'
  | 'too-many-parts'
  | 'too-deep'
  | 'not-utf8'
  | 'empty'
  | 'not-json'
  // Whose it is.
  | 'not-ours'
  | 'newer-version'
  | 'bad-version'
  // Its structure: what the JSON Schema says too.
  | 'missing-field'
  | 'unknown-field'
  | 'forbidden-field'
  | 'wrong-type'
  | 'not-finite'
  | 'not-whole'
  | 'out-of-range'
  | 'not-a-choice'
  | 'bad-text'
  | 'bad-id'
  | 'too-few'
  | 'too-many'
  // How its parts fit together: what no schema can say.
  | 'duplicate-id'
  | 'no-such-box'
  | 'keys-out-of-order'
  | 'outside-take'
  | 'span-reversed'
  | 'span-too-short'
  | 'contacts-overlap'
  | 'arcs-overlap'
  | 'kind-not-allowed'
  | 'normal-not-unit'
  | 'rate-out-of-range'
  | 'width-out-of-range'
  | 'camera-at-aim'
  // A plain problem.
  | 'bad-outline'
  // The end of a long list.
  | 'more'

/** Where something is in a file; made into text only when a fault needs it. */
export interface Place {
  readonly above: Place | undefined
  readonly name: string | number
}

/** How many faults a list names one by one. */
const MAX_FAULTS = 20

/** Collects faults: the first 20 in full, the others as a number. */
export class Faults {
  #named: Fault[] = []
  #count = 0

  get count(): number {
    return this.#count
  }

  /**
   * @param problem what is wrong, following "place: ", without a full stop
   * @param remedy what to do, a whole clause without a full stop
   */
  add(code: FaultCode, place: Place | undefined, problem: string | (() => string), remedy: string): void {
    this.#count += 1
    if (this.#named.length >= MAX_FAULTS) return
    const path = pointer(place)
    const what = typeof problem === 'string' ? problem : problem()
    this.#named.push({ code, path, message: `${path || 'the file'}: ${what}; ${remedy}.` })
  }

  /** At most 20 faults, and where there are more, one that says how many. */
  list(): Fault[] {
    const rest = this.#count - this.#named.length
    if (rest === 0) return [...this.#named]
    return [...this.#named, { code: 'more', path: '', message: `and ${rest} more.` }]
  }
}

/** The JSON pointer of a place; '' for the whole file. */
function pointer(place: Place | undefined): string {
  const names: string[] = []
  for (let at = place; at !== undefined; at = at.above)
    names.push(`/${oneLine(String(at.name)).replaceAll('~', '~0').replaceAll('/', '~1')}`)
  return names.reverse().join('')
}

/** A value as it may stand in a message: one line, in quotes where it is text, never long. */
export function shown(value: unknown): string {
  if (value === null) return 'null'
  if (Array.isArray(value)) return 'a list'
  if (typeof value === 'string') return `"${oneLine(value)}"`
  return typeof value === 'object' ? 'an object' : String(value)
}

const LONGEST_SHOWN = 40

/** Line breaks and other control characters would let a file write lines of its own into a report. */
function oneLine(text: string): string {
  const cut = text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the ones to take out
  return cut.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]/g, ' ')
}
