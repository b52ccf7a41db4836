import loadMujoco from 'mujoco-js'
import { scale, unit, type Vec3 } from '../../src/space/vec'

/** A rigid body let go on point contacts, for MuJoCo. World frame as ours, +Y up; SI units. */
export interface LooseBody {
  readonly mass: number
  readonly com: Vec3
  /** About the centre of mass along the world's axes: xx, yy, zz, xy, xz, yz. */
  readonly inertia: readonly [number, number, number, number, number, number]
  /** Where it touches; each place has a level floor of its own under it. */
  readonly feet: readonly Vec3[]
  /** Coulomb's coefficient. */
  readonly friction: number
  readonly gravity: number
  /** m */
  readonly stature: number
}

/** How far it has turned from its start, rad, step by step, until `until` rad or `most` s. */
export interface Turned {
  readonly step: number
  readonly angles: number[]
  /** Unit vector of the turn at the end, right-handed, world. */
  readonly axis: Vec3
}

type Mujoco = Awaited<ReturnType<typeof loadMujoco>>
let mujoco: Mujoco | null = null

/** @param hinge an axis to turn about; without one the body is free and stands on its feet */
export async function letGo(
  body: LooseBody,
  until: number,
  most: number,
  hinge?: { readonly point: Vec3; readonly direction: Vec3 },
): Promise<Turned> {
  mujoco ??= await loadMujoco()
  const step = 0.001 * Math.sqrt(body.stature / 1.8)
  mujoco.FS.writeFile('/body.xml', modelOf(body, step, hinge))
  const model = mujoco.MjModel.loadFromXML('/body.xml')
  if (!model) throw new Error('MuJoCo refused the model')
  const data = new mujoco.MjData(model)
  const angles: number[] = []
  let axis: Vec3 = [0, 0, 0]
  while (angles.length * step < most) {
    mujoco.mj_step(model, data)
    const [w, x, y, z] = (data.xquat as Float64Array).slice(4, 8) as unknown as [
      number,
      number,
      number,
      number,
    ]
    angles.push(2 * Math.atan2(Math.hypot(x, y, z), Math.abs(w)))
    axis = unit(scale([x, y, z], Math.sign(w)))
    if ((angles.at(-1) as number) > until) break
  }
  data.delete()
  model.delete()
  return { step, angles, axis }
}

/** When an angle was passed, s; null where it never was. */
export function timeTo({ step, angles }: Turned, angle: number): number | null {
  const i = angles.findIndex((a) => a >= angle)
  if (i < 0) return null
  const before = angles[i - 1] ?? 0
  return (i + (angle - before) / ((angles[i] as number) - before)) * step
}

/** Balls this small over the stature stand in for points. */
const BALL = 0.002

function modelOf(
  { mass, com, inertia, feet, friction, gravity, stature }: LooseBody,
  step: number,
  hinge?: Parameters<typeof letGo>[3],
) {
  const r = BALL * stature
  const n = (v: readonly number[]) => v.map((x) => x.toPrecision(12)).join(' ')
  const floors = feet.map(
    ([x, y, z], i) =>
      `<geom type="box" size="${n([r * 8, r, r * 8])}" pos="${n([x, y - r, z])}" contype="${bit(i)}" conaffinity="0"/>`,
  )
  const balls = feet.map(
    ([x, y, z], i) =>
      `<geom type="sphere" mass="0" size="${n([r])}" pos="${n([x - com[0], y + r - com[1], z - com[2]])}" contype="0" conaffinity="${bit(i)}"/>`,
  )
  const joint = hinge
    ? `<joint type="hinge" axis="${n(hinge.direction)}" pos="${n(hinge.point.map((p, i) => p - (com[i] as number)))}"/>`
    : '<freejoint/>'
  return `<mujoco>
    <compiler balanceinertia="false" boundmass="0" inertiafromgeom="false"/>
    <option timestep="${step}" gravity="0 ${-gravity} 0" cone="elliptic" impratio="20" integrator="implicitfast"/>
    <default><geom solref="${n([0.005 * Math.sqrt(stature / 1.8), 1])}" friction="${friction} 0.005 0.0001" condim="3"/></default>
    <worldbody>
      ${hinge ? '' : floors.join('')}
      <body pos="${n(com)}">
        ${joint}
        <inertial pos="0 0 0" mass="${mass}" fullinertia="${n(inertia)}"/>
        ${hinge ? '' : balls.join('')}
      </body>
    </worldbody>
  </mujoco>`
}

/** Every foot meets its own floor alone; MuJoCo has 31 kinds. */
const bit = (i: number) => 2 ** (i % 31)
