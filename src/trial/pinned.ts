import Matter from 'matter-js'
import { LIFT_HZ, PIN_STIFFNESS, PIXELS_PER_STATURE, TRIAL_GRAVITY, TRIAL_STATURE } from './constants'
import { makeEngine, setMass } from './engine'
import type { Slice } from './slice'

/**
 * A slice's body in matter-js, pinned at its edge and at rest. It has no shape to speak of: nothing but the
 * pin touches it. A body that starts to turn out has left its pads; one that starts to turn in is pressed
 * onto them, and they hold it.
 */
export class PinnedBody {
  private readonly engine: Matter.Engine
  private readonly body: Matter.Body
  /** Length of a step, s. */
  readonly step: number
  private steps = 0
  private before = 0

  constructor({ stature, gravity, com, mass, inertia }: Slice) {
    const pixels = PIXELS_PER_STATURE / stature
    // matter-js has y downwards, which makes an outward turn positive.
    const centre = { x: com[0] * pixels, y: -com[1] * pixels }
    this.step = Math.sqrt((stature / TRIAL_STATURE) * (TRIAL_GRAVITY / gravity)) / LIFT_HZ
    this.body = Matter.Body.create({ frictionAir: 0 })
    setMass(this.body, centre, (inertia / mass) * pixels * pixels)
    const pin = Matter.Constraint.create({
      bodyA: this.body,
      pointA: { x: -centre.x, y: -centre.y },
      pointB: { x: 0, y: 0 },
      length: 0,
      stiffness: PIN_STIFFNESS,
    })
    this.engine = makeEngine(TRIAL_GRAVITY, [this.body, pin])
  }

  advance(): void {
    this.before = this.body.angle
    Matter.Engine.update(this.engine, 1000 / LIFT_HZ)
    this.steps++
  }

  /** Turned since the start, rad; outward > 0. */
  get angle(): number {
    return this.body.angle
  }

  /** Whether it turned inward in the last step. */
  get turnsBack(): boolean {
    return this.body.angle < this.before
  }

  /** Time since the start, s. */
  get time(): number {
    return this.steps * this.step
  }

  /** When in the last step it passed an angle, s, taking the turn in a step as even; null where it didn't. */
  passed(angle: number): number | null {
    const { before } = this
    const now = this.body.angle
    if (before >= angle || now < angle) return null
    return (this.steps - 1 + (angle - before) / (now - before)) * this.step
  }

  /** The angle at a time within the last step. */
  angleAt(time: number): number {
    const part = time / this.step - (this.steps - 1)
    return this.before + (this.body.angle - this.before) * part
  }
}
