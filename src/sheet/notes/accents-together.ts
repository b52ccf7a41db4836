import type { Rule } from './types'
import { label, listed } from './words'

/** Marked accents that fall on one drawing: the eye gets one of them. */
export const accentsTogether: Rule = {
  id: 'accents',
  name: 'Accents together',
  pass: 'texture',
  level: 'style',
  onBlocking: false,
  plainInGraphic: false,
  fires(measured) {
    const drawing = (frame: number) => Math.floor(frame / measured.on) * measured.on
    const frames = [...new Set(measured.accents.map(({ frame }) => drawing(frame)))].sort((a, b) => a - b)
    return frames.flatMap((frame) => {
      const names = measured.accents
        .filter((accent) => drawing(accent.frame) === frame)
        .map(({ name }) => name)
      if (names.length < 2) return []
      return {
        from: frame,
        to: frame,
        number: names.length,
        sentence: `${listed(names)} start together at ${label(measured, frame)}.`,
        remedy: { text: 'Move one of them by two or three drawings.' },
      }
    })
  },
}
