import { type BodyModel, SEGMENTS } from '../../src/body/model'
import type { ReachedPose } from '../../src/pose/types'
import { apply, type Mat3 } from '../../src/space/rotation'
import { add, cross, sub, type Vec3, ZERO } from '../../src/space/vec'
import { type Mujoco, quaternion } from './dynamic-mujoco'

/**
 * Poses of ours replayed in MuJoCo (test only): every segment a free body of its own, moved by force from pose
 * to pose; its inverse dynamics says what each of them takes.
 */
export class MujocoReplay {
  private readonly model
  private readonly data

  constructor(
    private readonly mujoco: Mujoco,
    body: BodyModel,
    gravity: number,
  ) {
    const bodies = SEGMENTS.map((id) => {
      const { mass, inertia } = body.segments[id]
      const numbers = inertia.map((x) => x.toPrecision(17)).join(' ')
      return `<body><freejoint/><inertial pos="0 0 0" mass="${mass}" diaginertia="${numbers}"/></body>`
    })
    mujoco.FS.writeFile(
      '/replay.xml',
      `<mujoco><compiler inertiafromgeom="false" boundinertia="0" boundmass="0"/>
      <option gravity="0 ${-gravity} 0"/><worldbody>${bodies.join('')}</worldbody></mujoco>`,
    )
    const model = mujoco.MjModel.loadFromXML('/replay.xml')
    if (!model) throw new Error('MuJoCo refused the model')
    this.model = model
    this.data = new mujoco.MjData(model)
  }

  /**
   * The wrench about the whole's centre at the middle one of three poses, `seconds` apart; velocities and
   * accelerations are the differences that MuJoCo takes between them.
   */
  wrench(before: ReachedPose, now: ReachedPose, after: ReachedPose, seconds: number) {
    const [a, b, c] = [before, now, after].map(places) as [number[], number[], number[]]
    const first = this.difference(a, b, seconds)
    const second = this.difference(b, c, seconds)
    const data = this.data as unknown as Record<'qpos' | 'qvel' | 'qacc' | 'qfrc_inverse', Float64Array>
    data.qpos.set(b)
    for (let i = 0; i < first.length; i++) {
      data.qvel[i] = ((first[i] as number) + (second[i] as number)) / 2
      data.qacc[i] = ((second[i] as number) - (first[i] as number)) / seconds
    }
    this.mujoco.mj_inverse(this.model, this.data)
    const f = data.qfrc_inverse
    const three = (i: number): Vec3 => [f[i] as number, f[i + 1] as number, f[i + 2] as number]
    let force: Vec3 = ZERO
    let moment: Vec3 = ZERO
    SEGMENTS.forEach((id, s) => {
      const { com, rotation } = now.segments[id]
      force = add(force, three(6 * s))
      moment = add(moment, cross(sub(com, now.com), three(6 * s)))
      moment = add(moment, apply(rotation, three(6 * s + 3)))
    })
    return { force, moment }
  }

  free(): void {
    this.data.delete()
    this.model.delete()
  }

  private difference(from: number[], to: number[], seconds: number): Float64Array {
    const out = new this.mujoco.DoubleBuffer(6 * SEGMENTS.length)
    this.mujoco.mj_differentiatePos(this.model, out, seconds, from, to)
    const copy = Float64Array.from(out.GetView() as ArrayLike<number>)
    out.delete()
    return copy
  }
}

const places = (pose: ReachedPose): number[] =>
  SEGMENTS.flatMap((id) => {
    const { com, rotation } = pose.segments[id]
    return [...com, ...quaternion(rotation as Mat3)]
  })
