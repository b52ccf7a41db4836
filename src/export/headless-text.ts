import { cellText, fullTitle } from '../sheet/column'
import { columnsOf } from '../sheet/columns'
import { headerFacts } from '../sheet/header'
import type { TakeWeighed, WeighReport } from './headless'
import { textTable } from './text-table'

/** A weighed take for a terminal: its header, a row a frame, and the verdict at every key pose. */
export function takeText({ sheet, said }: TakeWeighed): string {
  const columns = columnsOf(sheet).filter(({ id }) => COLUMNS.test(id))
  const table = [
    columns.map((column) => fullTitle(column)),
    ...sheet.rows.map((row) => columns.map((column) => cellText(column, row).split('\n').join(' / '))),
  ]
  const head = headerFacts(sheet).map(({ value }) => value)
  const verdicts = said.map(({ frame, words }) =>
    [`${sheet.rows[frame]?.label}:`, words.headline, ...words.sentences].join(' '),
  )
  return plain([[sheet.header.title, ...head].join(' · '), textTable(table), ...verdicts].join('\n'))
}

/** What the loads need; what the pose needs stands in the CSV. */
const COLUMNS = /^(frame|mark|phase|room|push|verdict|note|.*\.(state|share|load|least))$/

/** A weighed problem for a terminal: its contacts, then its limbs. */
export function problemText({ frames }: WeighReport): string {
  const frame = frames[0]
  if (frame === undefined) throw new TypeError('a problem is weighed as one frame, got none')
  const newtons = (value: number) => value.toFixed(1)
  const percent = (share: number) => `${(100 * share).toFixed(1)} %`
  const metres = (value: number | null) => (value === null ? 'never' : value.toFixed(3))
  const contacts = frame.contacts.map((c) => [
    c.id,
    ...[newtons(c.load), percent(c.share), newtons(c.least), newtons(c.most), percent(c.frictionUsed)],
  ])
  const limbs = frame.limbs.map((limb) => [limb.id, limb.verdict, metres(limb.emptyAt), metres(limb.safeAt)])
  return [
    textTable([
      ['contact', 'load (N)', 'of the weight', 'least (N)', 'most (N)', 'friction used'],
      ...contacts,
    ]),
    textTable([['limb', 'can it lift', 'empty after (m)', 'safe after (m)'], ...limbs]),
    `room ${frame.room === null ? 'none' : `${frame.room.toFixed(3)} m`}, push from nowhere ${newtons(frame.push)} N\n`,
  ].join('\n')
}

const plain = (text: string): string => `${text.replaceAll('\u00a0', ' ')}\n`

/** A report as JSON, a frame a line. */
export function reportJson({ frames }: WeighReport): string {
  return `{"frames": [\n${frames.map((frame) => JSON.stringify(frame)).join(',\n')}\n]}\n`
}
