import type { ContactPart } from '../../document/contacts'
import { changeContact } from '../../plan/edit/contacts'
import { distance, type Vec3 } from '../../space/vec'
import { SLIDES } from './constants'
import { type Fix, takeOf } from './fixes'
import type { Finding, Measured, PartTouch, Rule } from './types'
import { frameAt, labelAt, length, lower, mass, partName } from './words'

/** A planted part that carries weight must not go anywhere. */
export const slidesUnderLoad: Rule = {
  id: 'slides',
  name: 'Slides under load',
  pass: 'contacts',
  level: 'breaks',
  onBlocking: true,
  plainInGraphic: false,
  fires: (measured) => measured.touches.flatMap((touch) => slideOf(measured, touch) ?? []),
}

function slideOf(measured: Measured, touch: PartTouch): Finding | null {
  const { root, size, dt } = measured
  const steps = stepsOf(measured, touch)
  const moved = steps.reduce((sum, step) => sum + step.moved, 0)
  const fastest = Math.max(0, ...steps.map((step) => step.moved / dt))
  if (moved < SLIDES.nothing * size) return null
  if (moved <= SLIDES.moved * size && fastest <= SLIDES.speed * root) return null
  const [first, last] = [steps[0], steps.at(-1)]
  if (!first || !last) return null
  const spreadUntil = touch.first + (SLIDES.spreadTime * root) / dt
  if (touch.begins && moved <= SLIDES.spread * size && last.i + 1 <= spreadUntil) return null
  const load = Math.max(...steps.map((step) => step.load))
  const name = partName(touch.part, touch.kind)
  const [from, to] = [frameAt(measured, first.i), frameAt(measured, last.i + 1)]
  return {
    from,
    to,
    number: moved,
    sentence: `${name} slides ${length(measured, moved)} with ${mass(measured, load)} on it.`,
    remedy: {
      text: `Hold the ${lower(name)} where it is at ${labelAt(measured, first.i)}, or take its weight off first.`,
      fix: holdPlace(touch.part, from, to),
    },
  }
}

interface Step {
  readonly i: number
  readonly moved: number
  /** Before it goes, kg: the jump itself is weighed as a blow. */
  readonly load: number
}

/** Where the pad goes from one drawn frame to the next while it is loaded, the same pad, and not a drag that is meant. */
function stepsOf(measured: Measured, { part, first, last }: PartTouch): Step[] {
  const found: Step[] = []
  for (let i = first; i < last; i++) {
    const [a, b] = [padAt(measured, part, i), padAt(measured, part, i + 1)]
    if (!a || !b || a.kind !== b.kind || a.drags || b.drags) continue
    const share = Math.max(a.share, b.share)
    const moved = distance(a.centre, b.centre)
    if (share > SLIDES.loaded && moved > ROUNDING * measured.stature)
      found.push({ i, moved, load: padAt(measured, part, i - 1)?.load ?? a.load })
  }
  return found
}

/** Over the stature: what reach leaves of a planted place. */
const ROUNDING = 1e-9

function padAt({ poses, weighed, take }: Measured, part: ContactPart, i: number) {
  const pad = poses[i]?.pads.find((one) => one.part === part)
  const frame = weighed[i]
  const bearing = frame?.weighing.contacts.find(({ id }) => id === pad?.id)
  if (!pad || !frame || !bearing) return null
  return {
    kind: pad.kind,
    centre: pad.centre as Vec3,
    share: bearing.share,
    load: bearing.load / frame.body.gravity,
    drags: take.contacts.find(({ id }) => id === pad.id)?.state === 'sliding',
  }
}

/** Every contact of the part that begins within the slide stands where the one before it does. */
function holdPlace(part: ContactPart, from: number, to: number): Fix {
  return (plan, takeId) => {
    const own = takeOf(plan, takeId)
      .contacts.filter((span) => span.part === part && span.to >= from && span.from <= to)
      .sort((a, b) => a.from - b.from)
    const [first, ...rest] = own
    if (!first) return plan
    return rest.reduce(
      (changing, { id }) =>
        changeContact(changing, takeId, id, {
          position: first.position,
          heading: first.heading,
          normal: first.normal,
          on: first.on,
        }),
      plan,
    )
  }
}
