import { partOf, SIDES } from '../../body/model'
import { POPS } from './constants'
import { windowsOf } from './runs'
import { betweenAxes } from './turns'
import type { Measured, Rule } from './types'
import { angle, frameAt, labelAt } from './words'

/** A knee or an elbow snaps straight. */
export const limbPops: Rule = {
  id: 'pops',
  name: 'Limb pops straight',
  pass: 'texture',
  level: 'look',
  onBlocking: false,
  plainInGraphic: false,
  fires: (measured) =>
    SIDES.flatMap((side) => [
      ...pops(measured, `thigh${side}`, `shank${side}`, side === 'L' ? 'left knee' : 'right knee'),
      ...pops(measured, `upperArm${side}`, `forearm${side}`, side === 'L' ? 'left elbow' : 'right elbow'),
    ]),
}

type Bone = `${'thigh' | 'shank' | 'upperArm' | 'forearm'}${'L' | 'R'}`

function pops(measured: Measured, upper: Bone, low: Bone, name: string) {
  const bend = (i: number) => {
    const segments = measured.poses[i]?.segments
    return segments ? betweenAxes(segments[upper].rotation, segments[low].rotation, 1) : 0
  }
  const window = Math.max(1, Math.round((POPS.within * measured.root) / measured.dt))
  return windowsOf(measured.frames.length, window, 0, (a, b) =>
    bend(a) > POPS.bent && bend(b) < POPS.straight ? bend(a) - bend(b) : 0,
  ).map(([a, b]) => ({
    from: frameAt(measured, a),
    to: frameAt(measured, b),
    number: bend(a) - bend(b),
    sentence: `The ${name} snaps from ${angle(bend(a))} to ${angle(bend(b))} in ${(b - a) * measured.on} frames.`,
    remedy: {
      text: `Bring the ${partOf(low) === 'shank' ? 'foot' : 'hand'} a little nearer at ${labelAt(measured, b)}, so that the joint keeps some bend.`,
    },
  }))
}
