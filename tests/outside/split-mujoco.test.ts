import loadMujoco from 'mujoco-js'
import { beforeAll, describe, expect, it } from 'vitest'
import { between, random } from '../../src/space/random'
import type { Vec3 } from '../../src/space/vec'
import { type Contact, weigh } from '../../src/weigh/weigh'

/*
 * The split against MuJoCo, a dynamics engine (test only): a rigid body let down on three or four balls, each on
 * a floor of its own, at one height or at several. Its stiff contacts are equal springs, so what they come to
 * rest with is the split with the least sum of squares; its friction creeps to nothing in the end, so uneven
 * stances are compared without.
 */

type Mujoco = Awaited<ReturnType<typeof loadMujoco>>
let mujoco: Mujoco
beforeAll(async () => {
  mujoco = await loadMujoco()
})

interface Stand {
  readonly mass: number
  readonly com: Vec3
  readonly feet: readonly Vec3[]
}

const RADIUS = 0.01
const GRAVITY = 9.81
/** Seconds to rest: the contacts are damped within 0.05 s. */
const SETTLE = 1

/** Normal load of each foot at rest, N. */
function atRest(stand: Stand): number[] {
  mujoco.FS.writeFile('/stand.xml', modelOf(stand))
  const model = mujoco.MjModel.loadFromXML('/stand.xml')
  if (!model) throw new Error('MuJoCo refused the model')
  const data = new mujoco.MjData(model)
  for (let t = 0; t < SETTLE; t += 0.001) mujoco.mj_step(model, data)
  const loads = stand.feet.map(() => 0)
  const force = new mujoco.DoubleBuffer(6)
  for (let i = 0; i < data.ncon; i++) {
    const contact = data.contact.get(i)
    if (!contact) continue
    mujoco.mj_contactForce(model, data, i, force)
    // Floors come first, one a foot.
    const foot = Math.min(contact.geom1, contact.geom2)
    loads[foot] = (loads[foot] as number) + (force.GetView()[0] as number)
    contact.delete()
  }
  force.delete()
  data.delete()
  model.delete()
  return loads
}

function modelOf({ mass, com, feet }: Stand): string {
  const n = (v: readonly number[]) => v.map((x) => x.toPrecision(12)).join(' ')
  const floors = feet.map(
    ([x, y, z], i) =>
      `<geom type="box" size="0.05 0.05 0.05" pos="${n([x, y - 0.05, z])}" contype="${2 ** i}" conaffinity="0"/>`,
  )
  const balls = feet.map(
    ([x, y, z], i) =>
      `<geom type="sphere" mass="0" size="${RADIUS}" pos="${n([x - com[0], y + RADIUS - com[1], z - com[2]])}" contype="0" conaffinity="${2 ** i}"/>`,
  )
  const inertia = n([mass * 0.08, mass * 0.08, mass * 0.08])
  return `<mujoco>
    <compiler inertiafromgeom="false"/>
    <option timestep="0.001" gravity="0 ${-GRAVITY} 0" cone="elliptic" iterations="100" tolerance="1e-12"/>
    <default><geom solref="0.005 1" friction="0.8 0.005 0.0001" condim="3"/></default>
    <worldbody>
      ${floors.join('')}
      <body pos="${n(com)}"><freejoint/><inertial pos="0 0 0" mass="${mass}" diaginertia="${inertia}"/>${balls.join('')}</body>
    </worldbody>
  </mujoco>`
}

function weighed({ mass, com, feet }: Stand, friction: number): number[] {
  const contacts = feet.map(
    (vertex, i): Contact => ({
      id: `foot${i}`,
      limb: `foot${i}`,
      vertices: [vertex],
      normal: [0, 1, 0],
      friction,
      stiffness: 1,
      limit: 3,
    }),
  )
  return weigh(contacts, { mass, com, stature: 1.8, gravity: GRAVITY }).contacts.map(({ share }) => share)
}

/** Feet in every direction, far enough apart to stand; the centre of mass between them. */
function standing(next: () => number, count: number, uneven: boolean): Stand {
  for (;;) {
    const start = between(next, 0, 2 * Math.PI)
    const feet = Array.from({ length: count }, (_, i): Vec3 => {
      const angle = start + (2 * Math.PI * (i + between(next, -0.3, 0.3))) / count
      const far = between(next, 0.2, 0.6)
      return [far * Math.cos(angle), uneven ? between(next, 0, 0.4) : 0, far * Math.sin(angle)]
    })
    const stand: Stand = {
      mass: between(next, 20, 300),
      com: [between(next, -0.15, 0.15), between(next, 0.5, 0.9), between(next, -0.15, 0.15)],
      feet,
    }
    const shares = weighed(stand, 0)
    // Each foot bears: a foot that only touches is no test, and MuJoCo may leave it in the air.
    if (Math.min(...shares) > 0.03 && Math.abs(shares.reduce((a, b) => a + b, 0) - 1) < 1e-6) return stand
  }
}

describe('against MuJoCo', () => {
  /**
   * @checks the split over three and four feet, level and uneven, 30 stands each
   * @against a rigid body come to rest on stiff contacts
   * @from mujoco-js; library
   * @within 0.05 % of the weight
   */
  it.each([
    ['three feet on one level', 3, false, 0.8],
    ['three feet at three heights', 3, true, 0],
    ['four feet on one level', 4, false, 0.8],
    ['four feet at four heights', 4, true, 0],
  ] as const)(
    '30 stands with %s agree within 0.0005 of the weight',
    { timeout: 60_000 },
    (_, count, uneven, friction) => {
      const next = random(1000 + count + (uneven ? 50 : 0))
      let worst = 0
      for (let i = 0; i < 30; i++) {
        const stand = standing(next, count, uneven)
        const ours = weighed(stand, friction)
        atRest(stand).forEach((load, foot) => {
          worst = Math.max(worst, Math.abs(load / (stand.mass * GRAVITY) - (ours[foot] as number)))
        })
      }
      // Measured: 0.0001 at worst.
      expect(worst).toBeLessThan(0.0005)
    },
  )
})
