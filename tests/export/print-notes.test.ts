import { expect, it } from 'vitest'
import { notesPart } from '../../src/export/print-notes'

const note = {
  label: 1012,
  from: 11,
  to: 13,
  level: 'breaks',
  sentence: 'Left knee slides 14 cm with 190 kg on it.',
  number: 3,
  remedy: 'Hold it where it is <at 1012>.',
} as const

it('prints the take in one line, then each note with its number, frames, level in words and remedy', () => {
  const markup = notesPart({ line: '1 to fix', list: [note, { ...note, number: 4, to: 11, level: 'style' }] })
  expect(markup).toContain('<p>1 to fix.</p>')
  expect(markup).toContain('<li value="3"><strong>1012–1014 breaks the weight:</strong> Left knee slides')
  expect(markup).toContain('<li value="4"><strong>1012 style:</strong>')
  expect(markup).toContain('&lt;at 1012&gt;')
  expect(markup).not.toContain('<at')
})

it('prints nothing where there are none', () => {
  expect(notesPart({ line: 'Nothing breaks the weight', list: [] })).toBe('')
})
