import { deleteKeys } from '../../plan/edit/keys'
import { distance } from '../../space/vec'
import { EVEN, MOVES } from './constants'
import { channelsOf, takeOf } from './fixes'
import { lasts, movesOf } from './moves'
import type { Rule } from './types'
import { frameAt, label, length, number2 } from './words'

/** A move at one speed: heavy is slow to start and slow to stop, not slow throughout. */
export const evenlySlow: Rule = {
  id: 'even',
  name: 'Evenly slow',
  pass: 'timing',
  level: 'look',
  onBlocking: false,
  plainInGraphic: true,
  fires(measured) {
    const { poses, speeds, size, root } = measured
    return movesOf(measured, 'pelvis')
      .filter((move) => lasts(measured, move) > MOVES.time * root)
      .flatMap((move) => {
        const [a, b] = [poses[move.first], poses[move.last + 1]]
        const way = a && b ? distance(a.joints.midHip, b.joints.midHip) : 0
        const steps = move.last - move.first + 1
        const mean = speeds.pelvis.subarray(move.first, move.last + 1).reduce((x, y) => x + y, 0) / steps
        const ratio = move.peak / mean
        if (way < EVEN.way * size || ratio >= EVEN.ratio) return []
        const [from, to] = [frameAt(measured, move.first), frameAt(measured, move.last + 1)]
        return {
          from,
          to,
          number: ratio,
          sentence: `The pelvis goes ${length(measured, way)} at one speed: at its quickest only ${number2(ratio)} times its mean.`,
          remedy: {
            text: `Slow out of ${label(measured, from)}, quicker through the middle, slow into ${label(measured, to)}: take the keys between away.`,
            fix: (plan, takeId) => {
              const places = channelsOf('pelvis').filter((id) => /[xyz]$/.test(id))
              const inner = places.flatMap((id) =>
                takeOf(plan, takeId).channels[id].flatMap(({ frame }) =>
                  frame > from && frame < to ? [frame] : [],
                ),
              )
              return [...new Set(inner)].reduce(
                (changing, frame) => deleteKeys(changing, takeId, frame, places),
                plan,
              )
            },
          },
        }
      })
  },
}
