import Matter from 'matter-js'
import { PIXELS_PER_STATURE, POSITION_ITERATIONS, TRIAL_STATURE, VELOCITY_ITERATIONS } from './constants'

/**
 * A world with these things in it.
 * @param gravity downwards for the trial's body of 1.8 m, m/s²
 */
export function makeEngine(
  gravity: number,
  things: readonly (Matter.Body | Matter.Constraint)[],
): Matter.Engine {
  const engine = Matter.Engine.create({
    positionIterations: POSITION_ITERATIONS,
    velocityIterations: VELOCITY_ITERATIONS,
    enableSleeping: false,
    gravity: { x: 0, y: 1, scale: pixelGravity(gravity) },
  })
  Matter.Composite.add(engine.world, [...things])
  return engine
}

/** px/ms² */
export const pixelGravity = (gravity: number): number => (gravity * PIXELS_PER_STATURE) / TRIAL_STATURE / 1e6

/**
 * Gives a body, at rest, a mass of 1, its centre of mass and its inertia over its mass, px². In this order:
 * setting the mass rescales the inertia, and setting the centre leaves a speed behind.
 */
export function setMass(body: Matter.Body, centre: Matter.Vector, inertia: number): void {
  Matter.Body.setMass(body, 1)
  Matter.Body.setCentre(body, centre)
  Object.assign(body, { positionPrev: { ...body.position } })
  Matter.Body.setInertia(body, inertia)
}
