import type { Point2 } from '../contact/hull'
import { loadsAt } from '../pose/between'
import { LIFT_HZ, PIN_STIFFNESS } from '../trial/constants'
import type { Edge, LiftTrial, Turn } from '../trial/lift'
import { sliceAt } from '../trial/slice'
import { lengthText } from './format'
import { type How, type HowFacts, input } from './how'
import { beyondSteps, distanceSteps } from './how-room'
import { framesText, secondsText } from './lift-words'

/** How the figures of a lift trial are worked out. */
export function trialHows(facts: HowFacts, frame: number, trial: LiftTrial): How[] {
  if (trial.outcome === 'falls' || trial.edge === null) return []
  const turn =
    trial.outcome === 'tips'
      ? trial
      : trial.outcome === 'holds' && trial.by === 'friction'
        ? trial.loose
        : null
  return [
    ...(trial.outcome === 'holds' ? [edgeHow(facts, trial.edge)] : []),
    ...(turn ? turnHows(facts, frame, trial.edge, turn) : []),
  ]
}

/** Room to the edge it would go over; what is past it is said without a sign. */
function edgeHow({ pose, unit }: HowFacts, { axis }: Edge): How {
  const ends = axis.ends.map(([x, , z]): Point2 => [x, z])
  const at: Point2 = [pose.com[0], pose.com[2]]
  const [a, b] = ends as [Point2, Point2 | undefined]
  return {
    id: 'trial.room',
    title: axis.room < 0 ? 'How far past the edge' : 'Room before he would tip',
    ...(b === undefined ? beyondSteps(a, at) : distanceSteps(a, b, at)),
    result: { value: axis.room, text: lengthText(Math.abs(axis.room), unit) },
    words: ['From the plumb to the nearest edge of the pads that stay, seen from above.'],
    source: 'Plain geometry.',
  }
}

function turnHows({ plan, take, body, pose }: HowFacts, frame: number, { axis }: Edge, turn: Turn): How[] {
  const { seconds, frames } = turn
  if (seconds === null || frames === null) return []
  const slice = sliceAt(axis, { body, pose, loads: loadsAt(take, frame) }, plan.gravity)
  const [out, up] = slice.com
  return [
    {
      id: 'trial.seconds',
      title: 'How soon he is past 5°',
      formula:
        '(I + m · r²) · θ″ = m · g · r · sin θ, r = √(a² + b²), tan θ = a ÷ b: t from rest until θ has grown by 5°',
      inputs: [
        input('I', 'inertia about the weight, along the edge', slice.inertia, 'kg m²'),
        input('m', 'mass', slice.mass, 'kg'),
        input('a', 'the weight beyond the edge', out, 'm'),
        input('b', 'the weight above the edge', up, 'm'),
        input('g', 'gravity square to the edge', slice.gravity, 'm/s²'),
      ],
      result: { value: seconds, text: secondsText(seconds) },
      words: [
        `The frozen pose as one rigid body, let go in matter-js: pinned at the edge (stiffness ${PIN_STIFFNESS}), no friction, ${LIFT_HZ} steps a second. It follows this equation within 3 % and a step.`,
        'A living body would catch itself or fold: it is how soon it has to.',
      ],
      source:
        'A rigid pendulum stood on its head (any text on mechanics). 5° is ours: by then anybody sees it.',
    },
    {
      id: 'trial.frames',
      title: 'Frames until he is past 5°',
      formula: 'n = t · f',
      inputs: [
        input('t', 'time until 5°', seconds, 's'),
        input('f', 'frames a second', plan.rate.num / plan.rate.den, 'fps'),
      ],
      result: { value: frames, text: framesText(frames) },
      words: ['Said to the nearest half frame.'],
      source: 'The plan’s rate.',
    },
  ]
}
