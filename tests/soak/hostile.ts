import { CHANNELS } from '../../src/document/channels'
import { LIMITS } from '../../src/document/limits'
import { readProblem } from '../../src/plan/problem'
import { readPlan } from '../../src/plan/read'
import { writePlan } from '../../src/plan/write'
import { smallPlan } from '../plan/random-plan'
import { must, type Soak } from './soak'

/** Files as large as they may be, made to cost the reader most; a seed is a row of the table. */
export const hostile: Soak = {
  name: 'hostile',
  long: 15,
  most: 1_000,
  regressions: [],
  prepare(seed) {
    const row = FILES[seed]
    must(row !== undefined, () => `there are ${FILES.length} files`)
    prepared = { seed, text: row[2]() }
  },
  attempt(seed) {
    if (prepared.seed !== seed) this.prepare?.(seed)
    const [name, readable] = FILES[seed] as (typeof FILES)[number]
    const { text } = prepared
    must(text.length <= LIMITS.fileBytes, () => `${name}: ${text.length} characters are too many`)
    const read = readPlan(text)
    must(read.ok === readable, () => `${name}: ${read.ok ? 'it was read' : read.faults[0]?.message}`)
    const faults = read.ok ? [] : read.faults
    must(faults.length <= 21, () => `${name}: ${faults.length} faults`)
    must(
      faults.every(({ message }) => message.length < 1_000),
      () => `${name}: a message of ${Math.max(...faults.map(({ message }) => message.length))} characters`,
    )
    must(!readProblem(text).ok, () => `${name}: it was read as a problem`)
    return undefined
  },
}

let prepared = { seed: -1, text: '' }

const FULL: number = LIMITS.fileBytes
const times = (piece: string, room = FULL): string => piece.repeat(Math.floor(room / piece.length))
const head = '"format":"weighbridge-plan","version":1'
const filled = (before: string, piece: string, after: string): string =>
  before + times(piece, FULL - before.length - after.length) + after

/** A plan of one take with so many keys on every channel. */
function manyKeys(keys: number): string {
  const plan = smallPlan(1)
  const takes = plan.takes.map((take) => ({
    ...take,
    length: LIMITS.frames[1],
    channels: Object.fromEntries(
      CHANNELS.map((id) => [
        id,
        Array.from({ length: keys }, (_, frame) => ({ frame, value: 0.123456789, in: 0.5, out: 0.5 })),
      ]),
    ) as unknown as typeof take.channels,
  }))
  return writePlan({ ...plan, takes })
}

const FILES: readonly (readonly [name: string, readable: boolean, make: () => string])[] = [
  ['as many keys as a take may have', true, () => manyKeys(LIMITS.keysPerChannel)],
  ['one key more', false, () => manyKeys(LIMITS.keysPerChannel + 1)],
  ['open lists', false, () => times('[')],
  ['open objects', false, () => times('{"a":')],
  ['open and closed lists', false, () => filled('[', '[],', '[]]')],
  ['numbers', false, () => filled(`{${head},"takes":[`, '1,', '1]}')],
  ['long numbers', false, () => filled(`{${head},"gravity":0.`, '1', '}')],
  ['one long text', false, () => filled(`{${head},"title":"`, 'x', '"}')],
  ['escaped signs', false, () => filled(`{${head},"title":"`, '\\u0000', '"}')],
  ['backslashes without an end', false, () => filled(`{${head},"title":"`, '\\\\', '')],
  ['quotation marks', false, () => times('"')],
  ['one long name', false, () => filled(`{${head},"`, 'x', '":1}')],
  ['takes that are nothing', false, () => filled(`{${head},"takes":[`, '{},', '{}]}')],
  ['the same field again and again', false, () => filled(`{${head},`, '"title":"x",', '"title":"x"}')],
  ['empty space', false, () => times(' ')],
]
