import type { Plan } from '../../document/plan'
import { accents } from '../../plan/edit/things'
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
      const together = measured.accents.filter((accent) => drawing(accent.frame) === frame)
      const names = together.map(({ name }) => name)
      if (names.length < 2) return []
      return {
        from: frame,
        to: frame,
        number: names.length,
        sentence: `${listed(names)} start together at ${label(measured, frame)}.`,
        remedy: {
          text: `Let each come ${APART} drawings after the one before.`,
          fix: (plan: Plan, takeId: string) =>
            together.reduce(
              (changing, { id }, i) =>
                accents.change(changing, takeId, id, { frame: frame + i * APART * measured.on }),
              plan,
            ),
        },
      }
    })
  },
}

/** Drawings after which an eye has left one accent for the next: at 24 on ones an eighth of a second. Ours. */
const APART = 3
