import { fromRig, naturalMass, type RigLengths, resized } from '../../body/builds'
import { makeBody } from '../../body/model'
import type { BodySpec } from '../../body/spec'
import type { Plan } from '../../document/plan'
import { setBody } from '../../plan/edit/head'
import { resizePlan } from '../../plan/edit/resize'
import { replaceTake } from '../../plan/edit/takes'
import { refitTake } from '../../pose/refit'

/** A body of the same build at another stature; mass goes with the cube. */
export const withStature = (plan: Plan, stature: number): Plan => resizePlan(plan, stature)

/** Only the mass changes: how heavy the character reads, in the same pose. */
export const withMass = (plan: Plan, mass: number): Plan => setBody(plan, { ...plan.body, mass })

export const withNaturalMass = (plan: Plan): Plan => withMass(plan, naturalMass(plan.body))

/** The body of the rig's lengths with the thickness it has now, of natural mass. */
export function withRig(plan: Plan, rig: RigLengths): Plan {
  const made = { ...fromRig(rig, plan.scene.unitsPerMetre), bulk: plan.body.bulk, blend: plan.body.blend }
  return withBody(plan, { ...made, mass: naturalMass(made) })
}

/** Another build of its own stature and mass. */
export const withBuild = (plan: Plan, spec: BodySpec): Plan => withBody(plan, spec)

/** A part's length, thickness or a width changed; stature and mass stay. */
export const withShape = (plan: Plan, changes: Partial<BodySpec>): Plan =>
  withBody(plan, { ...plan.body, ...changes })

/**
 * The plan with another body in its stances: everything first grows or shrinks to the new stature (blocks
 * too, so that each pose stays the same drawing), then poses and contacts are fitted to the new proportions.
 */
function withBody(plan: Plan, spec: BodySpec): Plan {
  const grown = resizePlan(plan, spec.stature)
  const changed = setBody(grown, spec)
  const [before, after] = [makeBody(grown.body), makeBody(changed.body)]
  if (sameShape(grown.body, changed.body)) return changed
  return changed.takes.reduce((made, take) => replaceTake(made, refitTake(take, before, after)), changed)
}

/** Whether two bodies have all the same lengths. */
function sameShape(a: BodySpec, b: BodySpec): boolean {
  const scaled = resized(a, b.stature)
  return (
    scaled.hipWidth === b.hipWidth &&
    scaled.shoulderWidth === b.shoulderWidth &&
    scaled.blend === b.blend &&
    Object.entries(a.length).every(([part, value]) => b.length[part as keyof typeof b.length] === value) &&
    Object.entries(a.bulk).every(([part, value]) => b.bulk[part as keyof typeof b.bulk] === value)
  )
}
