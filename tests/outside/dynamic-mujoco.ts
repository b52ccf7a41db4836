import type loadMujoco from 'mujoco-js'
import { type BodyModel, SEGMENTS, type SegmentId } from '../../src/body/model'
import type { CarriedLoad } from '../../src/document/plan'
import type { ReachedPose } from '../../src/pose/types'
import { between } from '../../src/space/random'
import { aboutAxis, apply, type Mat3, multiply, transpose } from '../../src/space/rotation'
import { add, addScaled, cross, scale, sub, unit, type Vec3 } from '../../src/space/vec'

/*
 * A body's segments as a tree of rigid bodies in MuJoCo (test only), the same masses, centres, inertias and
 * joints, moved along smooth curves whose slopes are known exactly. MuJoCo's own kinematics give the poses, its
 * inverse dynamics the wrench that the ground would have to give.
 */

export type Mujoco = Awaited<ReturnType<typeof loadMujoco>>
type Model = NonNullable<ReturnType<Mujoco['MjModel']['loadFromXML']>>
type Data = InstanceType<Mujoco['MjData']>

/** One turn about a fixed axis: a constant rate and swings, rad. */
interface Swing {
  readonly axis: Vec3
  readonly rate: number
  readonly waves: readonly Wave[]
}

interface Wave {
  readonly size: number
  /** rad/s */
  readonly speed: number
  readonly phase: number
}

/** A motion of the whole body: three waves of the root's place, two turns at every joint. */
export interface Flailing {
  readonly place: readonly (readonly Wave[])[]
  readonly joints: ReadonlyMap<SegmentId, readonly [Swing, Swing]>
}

/** @param hertz the fastest wave */
export function flailing(next: () => number, stature: number, hertz: number, spin: number): Flailing {
  const wave = (size: number): Wave => ({
    size: between(next, -size, size),
    speed: 2 * Math.PI * between(next, 0.2, hertz),
    phase: between(next, 0, 2 * Math.PI),
  })
  const swing = (size: number, rate: number): Swing => ({
    axis: unit([between(next, -1, 1), between(next, -1, 1), between(next, -1, 1)]),
    rate,
    waves: [wave(size), wave(size)],
  })
  return {
    place: [0, 1, 2].map(() => [wave(0.1 * stature), wave(0.05 * stature)]),
    joints: new Map(
      SEGMENTS.map((id) => [
        id,
        id === 'lowerTrunk' ? [swing(0.5, spin), swing(0.5, spin)] : [swing(0.6, 0), swing(0.6, 0)],
      ]),
    ),
  }
}

const sum = (waves: readonly Wave[], of: (wave: Wave) => number) =>
  waves.reduce((total, wave) => total + of(wave), 0)
const value = (t: number) => (w: Wave) => w.size * Math.sin(w.speed * t + w.phase)
const slope = (t: number) => (w: Wave) => w.size * w.speed * Math.cos(w.speed * t + w.phase)
const bend = (t: number) => (w: Wave) => -w.size * w.speed ** 2 * Math.sin(w.speed * t + w.phase)

/** Orientation to the parent, and angular velocity and acceleration in the child's own frame. */
function jointAt([first, second]: readonly [Swing, Swing], t: number) {
  const angle = (s: Swing) => s.rate * t + sum(s.waves, value(t))
  const speed = (s: Swing) => s.rate + sum(s.waves, slope(t))
  const inner = aboutAxis(second.axis, angle(second))
  const carried = apply(transpose(inner), first.axis)
  const own = scale(second.axis, speed(second))
  const velocity = add(scale(carried, speed(first)), own)
  const acceleration = add(
    add(scale(carried, sum(first.waves, bend(t))), scale(second.axis, sum(second.waves, bend(t)))),
    scale(cross(own, carried), -speed(first)),
  )
  return { rotation: multiply(aboutAxis(first.axis, angle(first)), inner), velocity, acceleration }
}

export class MujocoBody {
  readonly model: Model
  readonly data: Data
  /** Segments in the order of MuJoCo's joints, and the number of MuJoCo's body of each. */
  private readonly order: SegmentId[] = []
  private readonly number: number[] = []
  private bodies = 0

  constructor(
    private readonly mujoco: Mujoco,
    private readonly body: BodyModel,
    private readonly load: Pick<CarriedLoad, 'mass' | 'offset'> | null,
    gravity: number,
    options = '',
  ) {
    mujoco.FS.writeFile('/flail.xml', this.xml(gravity, options))
    const model = mujoco.MjModel.loadFromXML('/flail.xml')
    if (!model) throw new Error('MuJoCo refused the model')
    this.model = model
    this.data = new mujoco.MjData(model)
  }

  /** Sets places, velocities and accelerations of a motion at t. */
  set({ place, joints }: Flailing, t: number): void {
    const { qpos, qvel, qacc } = this.data as unknown as Record<'qpos' | 'qvel' | 'qacc', Float64Array>
    place.forEach((waves, i) => {
      qpos[i] = (i === 1 ? this.body.stature / 2 : 0) + sum(waves, value(t))
      qvel[i] = sum(waves, slope(t))
      qacc[i] = sum(waves, bend(t))
    })
    this.order.forEach((id, b) => {
      const { rotation, velocity, acceleration } = jointAt(joints.get(id) as [Swing, Swing], t)
      qpos.set(quaternion(rotation), 3 + 4 * b)
      qvel.set(velocity, 3 + 3 * b)
      qacc.set(acceleration, 3 + 3 * b)
    })
  }

  /** The wrench on the root that the present motion takes: force, and moment about the whole's centre. */
  wrench(): { force: Vec3; moment: Vec3 } {
    this.mujoco.mj_inverse(this.model, this.data)
    const {
      qfrc_inverse: f,
      xpos,
      xmat,
      subtree_com: com,
    } = this.data as unknown as Record<string, Float64Array>
    const at = (array: Float64Array | undefined, i: number): Vec3 =>
      [0, 1, 2].map((k) => (array as Float64Array)[i + k] as number) as unknown as Vec3
    const force = at(f, 0)
    const turn = apply([...(xmat as Float64Array).slice(9, 18)] as unknown as Mat3, at(f, 3))
    return { force, moment: add(turn, cross(sub(at(xpos, 3), at(com, 3)), force)) }
  }

  /** The pose that MuJoCo's kinematics give for the present places. */
  pose(): ReachedPose {
    this.mujoco.mj_kinematics(this.model, this.data)
    this.mujoco.mj_comPos(this.model, this.data)
    return this.read()
  }

  /** The pose that the data hold. */
  read(): ReachedPose {
    const { xpos, xmat, xipos, subtree_com } = this.data as unknown as Record<string, Float64Array>
    const three = (array: Float64Array | undefined, i: number): Vec3 =>
      [0, 1, 2].map((k) => (array as Float64Array)[i + k] as number) as unknown as Vec3
    const segments = Object.fromEntries(
      this.order.map((id, b) => {
        const n = this.number[b] as number
        const rotation = [...(xmat as Float64Array).slice(9 * n, 9 * n + 9)] as unknown as Mat3
        return [id, { rotation, origin: three(xpos, 3 * n), com: three(xipos, 3 * n) }]
      }),
    ) as unknown as ReachedPose['segments']
    const { head } = segments
    const crown = add(head.origin, apply(head.rotation, [0, this.body.lengths.head, 0]))
    const mass = this.body.mass + (this.load?.mass ?? 0)
    const joints = { crown, knuckleL: crown, knuckleR: crown } as unknown as ReachedPose['joints']
    return { segments, joints, pads: [], mass, com: three(subtree_com, 3) } as unknown as ReachedPose
  }

  free(): void {
    this.data.delete()
    this.model.delete()
  }

  private xml(gravity: number, options: string): string {
    const { lengths: l, shoulderWidth, hipWidth } = this.body
    const arm = (side: 'L' | 'R', x: number) =>
      this.part(`upperArm${side}`, [x, l.shoulderOnUpperTrunk, 0], () =>
        this.part(`forearm${side}`, [0, -l.upperArm, 0], () => this.part(`hand${side}`, [0, -l.forearm, 0])),
      )
    const leg = (side: 'L' | 'R', x: number) =>
      this.part(`thigh${side}`, [x, 0, 0], () =>
        this.part(`shank${side}`, [0, -l.thigh, 0], () => this.part(`foot${side}`, [0, -l.shank, 0])),
      )
    const loaded = () => {
      if (this.load === null) return ''
      this.bodies++
      return `<body pos="${text(addScaled(this.load.offset, [0, 1, 0], l.head))}"><inertial pos="0 0 0" mass="${this.load.mass}" diaginertia="1e-9 1e-9 1e-9"/></body>`
    }
    const chest = () =>
      `${this.part('head', [0, l.upperTrunk, 0], loaded)}${arm('L', shoulderWidth / 2)}${arm('R', -shoulderWidth / 2)}`
    const root = this.part('lowerTrunk', [0, 0, 0], () =>
      [
        this.part('middleTrunk', [0, l.lowerTrunk, 0], () =>
          this.part('upperTrunk', [0, l.middleTrunk, 0], chest),
        ),
        leg('L', hipWidth / 2),
        leg('R', -hipWidth / 2),
      ].join(''),
    )
    return `<mujoco><compiler inertiafromgeom="false" boundinertia="0" boundmass="0"/>
      <option gravity="0 ${-gravity} 0" ${options}/><worldbody>${root}</worldbody></mujoco>`
  }

  private part(id: SegmentId, at: Vec3, children: () => string = () => ''): string {
    const { mass, com, inertia } = this.body.segments[id]
    this.order.push(id)
    this.number.push(++this.bodies)
    const joint = id === 'lowerTrunk' ? '<freejoint/>' : '<joint type="ball"/>'
    const inertial = `<inertial pos="${text(com)}" mass="${mass}" diaginertia="${text(inertia)}"/>`
    return `<body pos="${text(at)}">${joint}${inertial}${children()}</body>`
  }
}

const text = (v: readonly number[]) => v.map((x) => x.toPrecision(17)).join(' ')

/** w, x, y, z of a rotation. */
export function quaternion(r: Mat3): [number, number, number, number] {
  const w = Math.sqrt(Math.max(0, 1 + r[0] + r[4] + r[8])) / 2
  if (w > 0.1) return [w, (r[7] - r[5]) / (4 * w), (r[2] - r[6]) / (4 * w), (r[3] - r[1]) / (4 * w)]
  const x = Math.sqrt(Math.max(0, 1 + r[0] - r[4] - r[8])) / 2
  if (x > 0.1) return [(r[7] - r[5]) / (4 * x), x, (r[1] + r[3]) / (4 * x), (r[2] + r[6]) / (4 * x)]
  const y = Math.sqrt(Math.max(0, 1 - r[0] + r[4] - r[8])) / 2
  if (y > 0.1) return [(r[2] - r[6]) / (4 * y), (r[1] + r[3]) / (4 * y), y, (r[5] + r[7]) / (4 * y)]
  const z = Math.sqrt(Math.max(0, 1 - r[0] - r[4] + r[8])) / 2
  return [(r[3] - r[1]) / (4 * z), (r[2] + r[6]) / (4 * z), (r[5] + r[7]) / (4 * z), z]
}
