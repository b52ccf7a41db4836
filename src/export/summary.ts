import { massText, percentText } from '../sheet/format'
import { headerFacts } from '../sheet/header'
import type { Sheet, SheetRow } from '../sheet/types'
import type { VerdictWords } from '../sheet/words'

/**
 * A take in a few lines of plain text to paste: what it is, its key poses with their loads, and what is said of
 * one frame.
 * @param said the verdict on a frame (counted from 0), or null to leave it out
 */
export function summaryText(
  sheet: Sheet,
  said: { readonly frame: number; readonly words: VerdictWords } | null,
): string {
  const facts = new Map(headerFacts(sheet).map(({ term, value }) => [term, value]))
  const line = (...terms: string[]) => terms.map((term) => facts.get(term)).join(' · ')
  const keys = sheet.rows.filter(({ mark }) => mark.kind === 'key' || mark.kind === 'breakdown')
  const lines = [
    `${sheet.header.title} · ${sheet.header.take}`,
    line('character', 'size', 'rate', 'frames'),
    '',
    ...keys.map((row) => keyLine(sheet, row)),
    ...(said === null ? [] : ['', verdictLine(sheet, said)]),
  ]
  return `${lines.join('\n').replaceAll('\u00a0', ' ')}\n`
}

function verdictLine({ rows }: Sheet, { frame, words }: { frame: number; words: VerdictWords }): string {
  return `${rows[frame]?.label}: ${[words.headline, ...words.sentences].join(' ')}`
}

/** '1001 K ready: leg L 45 % (191 kg), leg R 36 % (152 kg), fist L off' */
function keyLine({ limbs, header }: Sheet, row: SheetRow): string {
  const loads = limbs.map(({ id, title }) => {
    const { state, weight } = row.limbs[id]
    if (state === 'off') return `${title} off`
    if (weight === null) return `${title} ${state}`
    const carried = `${title} ${percentText(weight.share)} (${massText(weight.mass, header.mass)})`
    return state === 'down' ? carried : `${carried}, ${state}`
  })
  const phases = row.phases.map(({ name }) => name).join(' + ')
  const head = [row.label, row.mark.kind === 'key' ? 'K' : 'B', phases].filter(Boolean).join(' ')
  return [`${head}: ${loads.join(', ')}`, ...row.note.split('\n').filter(Boolean)].join(' — ')
}
