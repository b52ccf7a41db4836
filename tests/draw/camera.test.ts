import { describe, expect, it } from 'vitest'
import type { Camera } from '../../src/document/plan'
import { distanced, firstCamera, orbited, projectLine, projectShot, shotOf } from '../../src/draw/camera'
import { leanOnScreen } from '../../src/draw/camera-reads'
import { distance, type Vec3 } from '../../src/space/vec'

/** In front of him at his middle's height, 4 m off: he looks into it. */
const front: Camera = { position: [0, 1, 4], aim: [0, 1, 0], lens: 36 }
const at = (camera: Camera, p: Vec3) => projectShot(shotOf(camera, 1000, 500), p)

describe('the shot', () => {
  it('has its aim in the middle, his left on the right, up up, and a metre as pinhole geometry has it', () => {
    expect(at(front, [0, 1, 0])).toEqual([500, 250, 4])
    // A lens as long as its frame is wide sees, 4 m off, a field 4 m wide: 250 px a metre of 1000.
    expect(at(front, [1, 1, 0])).toEqual([750, 250, 4])
    expect(at(front, [0, 2, 0])).toEqual([500, 0, 4])
    expect(at(front, [1, 1, 2])?.[0]).toBeCloseTo(1000, 9)
    expect(at(front, [0, 1, 5])).toBeNull()
  })

  it('a lens twice as long shows everything twice as large', () => {
    const [x, y] = at({ ...front, lens: 72 }, [0.5, 1.2, 0]) as readonly [number, number, number]
    expect(x).toBeCloseTo(750, 9)
    expect(y).toBeCloseTo(150, 9)
  })

  it('straight down it has the floor view’s right: his left', () => {
    const above: Camera = { position: [0, 4, 0], aim: [0, 0, 0], lens: 36 }
    const [x, y] = at(above, [1, 0, 1]) as readonly [number, number, number]
    expect([x, y]).toEqual([750, 500])
  })

  it('a line that runs past the camera is cut off before it', () => {
    const shot = shotOf(front, 1000, 500)
    const seen = projectLine(shot, [0.5, 0, 0], [0.5, 0, 10])
    expect(seen?.[0]).toEqual([625, 500, 4])
    expect(seen?.[1][2]).toBeCloseTo(0.02, 6)
    expect(projectLine(shot, [0, 0, 5], [0, 0, 9])).toBeNull()
  })
})

describe('an orbit', () => {
  it('keeps the distance; to the right it goes to his left, and 90° make a side view', () => {
    const side = orbited(front, Math.PI / 2, 0)
    expect(side.position.map((v) => Math.round(v * 1e9) / 1e9)).toEqual([4, 1, 0])
    const high = orbited(front, 0.4, 0.9)
    expect(distance(high.position, high.aim)).toBeCloseTo(4, 9)
    expect(high.position[1]).toBeGreaterThan(3)
  })

  it('stops short of straight above, and nearer is nearer', () => {
    expect(orbited(front, 0, 9).position[1]).toBeLessThan(5)
    expect(orbited(front, 0, 9).position[2]).toBeGreaterThan(0.1)
    expect(distanced(front, 0.5).position).toEqual([0, 1, 2])
  })

  it('a first camera sees the whole body in a picture of 16 : 9', () => {
    const shot = shotOf(firstCamera([0, 0.9, 0], 1.8), 1600, 900)
    for (const y of [0, 1.8]) {
      const [x, v] = projectShot(shot, [0, y, 0]) as readonly [number, number, number]
      expect(x).toBeCloseTo(800, 6)
      expect(v).toBeGreaterThan(0)
      expect(v).toBeLessThan(900)
    }
  })
})

describe('a lean on the screen', () => {
  const start = { com: [0, 0.9, 0] as Vec3, hipL: [0.1, 0.9, 0] as Vec3, hipR: [-0.1, 0.9, 0] as Vec3 }
  const moved = (x: number, z: number, list = 0) => ({
    com: [x, 0.9, z] as Vec3,
    hipL: [0.1 + x, 0.9 + 0.1 * Math.sin(list), z] as Vec3,
    hipR: [-0.1 + x, 0.9 - 0.1 * Math.sin(list), z] as Vec3,
  })

  it('18 cm across the picture are a tenth of 1.8 m', () => {
    const lean = leanOnScreen(front, 1.8, start, moved(0.18, 0))
    expect(lean).toMatchObject({ seen: true, reads: true, turn: 0 })
    expect(lean.seen && lean.travel).toBeCloseTo(0.1, 9)
  })

  it('straight to the camera it doesn’t read; carried round by the turn that is named, it just does', () => {
    const lean = leanOnScreen(front, 1.8, start, moved(0, 0.18))
    expect(lean).toMatchObject({ seen: true, reads: false, hipLineReads: false })
    if (!lean.seen || lean.turn === null) throw new Error('it must be told how far')
    const there = leanOnScreen(orbited(front, lean.turn, 0), 1.8, start, moved(0, 0.18))
    expect(there).toMatchObject({ reads: true })
    const short = leanOnScreen(orbited(front, lean.turn * 0.9, 0), 1.8, start, moved(0, 0.18))
    expect(short).toMatchObject({ reads: false })
  })

  it('the hip line tells a lean head-on once it tips 4°; a lean of 1 cm reads from nowhere', () => {
    const tipped = leanOnScreen(front, 1.8, start, moved(0, 0.05, (6 * Math.PI) / 180))
    expect(tipped).toMatchObject({ reads: false, hipLineReads: true })
    expect(tipped.seen && (tipped.hipLine * 180) / Math.PI).toBeCloseTo(6, 0)
    expect(leanOnScreen(front, 1.8, start, moved(0.01, 0))).toMatchObject({ reads: false, turn: null })
  })

  it('behind the camera nothing is seen', () => {
    expect(
      leanOnScreen({ ...front, position: [0, 1, -4], aim: [0, 1, -8] }, 1.8, start, moved(1, 0)),
    ).toEqual({
      seen: false,
    })
  })
})
