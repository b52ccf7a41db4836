import { describe, expect, it } from 'vitest'
import { summaryText } from '../../src/export/summary'
import { capstone, spaced, weighed, wordsAt } from '../sheet/sheets'

const demo = weighed(capstone())

describe('a summary to paste', () => {
  const lines = summaryText(demo.sheet, { frame: 0, words: wordsAt(demo, 0) }).split('\n')

  it('says what it is of', () => {
    expect(lines[0]).toBe(`Capstone · ${demo.take.name}`)
    expect(lines[1]).toMatch(/^Stone-troll mason · 2\.6 m, 420 kg · 24 fps · 1001–\d+ \(\d+\)$/)
  })

  it('has a line a key pose with frame, phase and loads', () => {
    const keys = demo.sheet.rows.filter(({ mark }) => mark.kind === 'key')
    const keyLines = lines.filter((line) => /^\d+ K/.test(line))
    expect(keyLines.map((line) => Number(line.split(' ')[0]))).toEqual(keys.map(({ label }) => label))
    expect(keyLines[0]).toMatch(
      /^1001 K ready: leg L \d+ % \(\d+ kg\), leg R \d+ % \(\d+ kg\), fist L \d+ % \(\d+ kg\)$/,
    )
    expect(keyLines.some((line) => line.includes('leg L off'))).toBe(true)
  })

  it('ends with the verdict at the frame asked for', () => {
    const words = wordsAt(demo, 0)
    expect(lines.at(-2)).toBe(`1001: ${spaced([words.headline, ...words.sentences].join(' '))}`)
    expect(summaryText(demo.sheet, null)).not.toContain('pinned')
  })

  it('is plain text without special spaces', () => {
    expect(lines.join('')).not.toMatch(/\u00a0/)
  })
})
