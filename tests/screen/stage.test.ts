import { describe, expect, test } from 'vitest'
import type { ContactPart } from '../../src/document/contacts'
import { project, type ViewId } from '../../src/draw/project'
import { keyedFramesOf } from '../../src/plan/key-poses'
import { contactsAt } from '../../src/pose/between'
import { Desk } from '../../src/screen/desk.svelte'
import { describeStage } from '../../src/screen/stage/describe'
import { Gestures, type Spot } from '../../src/screen/stage/gestures.svelte'
import { arrowStep, gripToward } from '../../src/screen/stage/pick'
import { plantings } from '../../src/screen/stage/planting'
import { stageStateOf } from '../../src/screen/stage/stage-state.svelte'
import { layStill, scaleStill } from '../../src/screen/stage/still'
import { StillGestures } from '../../src/screen/stage/still-gestures'
import { distance } from '../../src/space/vec'
import { capstone } from '../support/capstone'

function onStage(plan = capstone()) {
  const desk = new Desk(plan)
  const stage = stageStateOf(desk)
  stage.drawing.setSize(838, 676, false)
  const gestures = new Gestures(desk, stage)
  const gripOf = (id: string, view: ViewId = 'front') => {
    const grip = stage.drawing.grips.find((one) => one.thing.id === id && one.view.id === view)
    if (!grip) throw new Error(`no ${id} in the ${view} view`)
    return grip
  }
  const spot = (x: number, y: number, touch = false): Spot => ({ x, y, touch })
  const drag = (id: string, dx: number, dy: number, view: ViewId = 'front') => {
    stage.choose(id, view)
    const { x, y } = gripOf(id, view)
    gestures.press(spot(x, y))
    for (const share of [0.3, 0.6, 1]) {
      gestures.move(spot(x + dx * share, y + dy * share))
      gestures.frame()
    }
    return () => gestures.release(spot(x + dx, y + dy))
  }
  return { desk, plan, stage, gestures, gripOf, spot, drag }
}

describe('dragging a handle', () => {
  test('the pelvis follows the pointer, the mover comes free, and it is one step of undo', () => {
    const { desk, plan, drag } = onStage()
    const before = desk.pose.joints.midHip
    expect(desk.verdict.kind).toBe('pinned')
    drag('pelvis', -28, 0)()
    expect(desk.pose.joints.midHip[0]).toBeLessThan(before[0] - 0.1)
    expect(['empty', 'could let go']).toContain(desk.verdict.kind)
    expect(desk.undoLabel).toBe('Move pelvis')
    desk.undo()
    expect(desk.plan).toBe(plan)
  })

  test('what is planted stays while the pelvis is dragged, and the drawing keeps its scale', () => {
    const { desk, stage, drag } = onStage()
    const pads = desk.pose.pads.map(({ centre }) => centre)
    const { layout } = stage.drawing
    const release = drag('pelvis', -90, -200)
    expect(stage.drawing.layout).toEqual(layout)
    for (const [i, pad] of desk.pose.pads.entries())
      expect(distance(pad.centre, pads[i] as (typeof pads)[number])).toBeLessThan(1e-9)
    release()
  })

  test('Escape goes back to where it started, to the very same plan', () => {
    const { desk, plan, gestures, drag } = onStage()
    drag('chest', 20, 10)
    expect(desk.plan).not.toBe(plan)
    gestures.cancel()
    expect(desk.plan).toBe(plan)
    expect(desk.busy).toBe(false)
    expect(gestures.hold).toBeNull()
  })

  test('undo in the middle of it takes it back, and the rest of the drag does nothing', () => {
    const { desk, plan, gestures, drag } = onStage()
    const release = drag('head', 15, 5)
    desk.undo()
    expect(desk.plan).toBe(plan)
    gestures.move({ x: 300, y: 300, touch: false })
    gestures.frame()
    release()
    expect(desk.plan).toBe(plan)
  })

  test('a press that does not move is a tap, and changes nothing', () => {
    const { desk, plan, gestures, gripOf, stage } = onStage()
    const { x, y } = gripOf('kneeL', 'floor')
    gestures.press({ x, y, touch: false })
    gestures.move({ x: x + 1, y: y + 1, touch: false })
    expect(gestures.release({ x: x + 1, y: y + 1, touch: false })?.kind).toBe('grip')
    expect(desk.plan).toBe(plan)
    expect(stage.chosen).not.toBeNull()
  })

  test('on an in-between it keys only what moved, as a breakdown', () => {
    const { desk, drag } = onStage()
    desk.setFrame(4)
    drag('head', 15, 0)()
    const keyed = keyedFramesOf(desk.take).find(({ frame }) => frame === 4)
    expect(keyed?.mark).toBe('breakdown')
    expect(keyed?.channels.every((channel) => channel.startsWith('head'))).toBe(true)
    expect(desk.status?.text).toContain('1005 is a breakdown now')
  })

  test('a planted knee slides over the ground and takes its foot along', () => {
    const { desk, drag } = onStage()
    const place = (part: ContactPart) =>
      contactsAt(desk.take, 0).find((span) => span.part === part)?.position as readonly number[]
    const [knee, foot] = [place('kneeR'), place('footR')]
    drag('kneeR', -20, 0, 'floor')()
    const by = (place('kneeR')[0] as number) - (knee[0] as number)
    expect(by).toBeLessThan(-0.04)
    expect((place('footR')[0] as number) - (foot[0] as number)).toBeCloseTo(by, 9)
    expect(place('kneeR')[1]).toBe(knee[1])
  })
})

describe('taps', () => {
  test('repeated taps go through the handles on one spot', () => {
    const { gestures, gripOf, stage } = onStage()
    const { x, y } = gripOf('hipR', 'side')
    const tap = () => {
      gestures.press({ x, y, touch: false })
      gestures.release({ x, y, touch: false })
      return stage.chosen?.id
    }
    const near = gestures.near({ x, y, touch: false }).map(({ thing }) => thing.id)
    expect(near.length).toBeGreaterThan(1)
    const seen = near.map(tap)
    expect(new Set(seen)).toEqual(new Set(near))
    expect(tap()).toBe(seen[0])
  })

  test('a press on one handle’s mark takes it, though one beside it was chosen', () => {
    const { gestures, gripOf, spot, stage, desk } = onStage()
    const waist = gripOf('waist')
    const others = gestures.near(spot(waist.x, waist.y)).filter(({ thing }) => thing.id !== 'waist')
    for (const other of [...others, gripOf('hipR'), gripOf('pelvis')]) {
      stage.choose(other.thing.id, 'front')
      gestures.press(spot(waist.x, waist.y))
      gestures.move(spot(waist.x + 8, waist.y))
      expect(gestures.hold?.thing.id).toBe(
        Math.hypot(other.x - waist.x, other.y - waist.y) <= 5 ? other.thing.id : 'waist',
      )
      gestures.cancel()
    }
    expect(desk.busy).toBe(false)
  })

  test('tapped by finger, then tapped where it should go: as good as a drag', () => {
    const { desk, gestures, gripOf, spot, stage } = onStage()
    const { x, y } = gripOf('handR')
    gestures.press(spot(x, y, true))
    gestures.release(spot(x, y, true))
    expect(stage.chosen?.id).toBe('handR')
    expect(stage.placing).toBe(true)
    gestures.press(spot(x - 45, y - 70, true))
    expect(gestures.release(spot(x - 45, y - 70, true))?.kind).toBe('placed')
    const after = gripOf('handR')
    expect(Math.hypot(after.x - (x - 45), after.y - (y - 70))).toBeLessThan(3)
    expect(desk.undoLabel).toBe('Move right hand')
  })

  test('a click on a limb asks whether it can lift; on the trunk and beside the body nothing happens', () => {
    const { desk, plan, gestures, spot, stage } = onStage()
    const front = stage.drawing.view('front')
    if (!front) throw new Error('no front view')
    const { shankR, upperTrunk } = desk.pose.segments
    const [x, y] = project(front, shankR.com)
    expect(gestures.limbAt(spot(x, y))).toBe('legR')
    const [tx, ty] = project(front, upperTrunk.com)
    expect(gestures.limbAt(spot(tx, ty))).toBeNull()
    expect(gestures.limbAt(spot(20, 120))).toBeNull()
    expect(desk.plan).toBe(plan)
  })
})

describe('keys', () => {
  test('Enter grabs, arrows move by a step, Enter lets go as one step of undo', () => {
    const { desk, gestures, gripOf } = onStage()
    const before = desk.pose.joints.midHip[0]
    gestures.grab(gripOf('pelvis'))
    for (let i = 0; i < 10; i++) gestures.step('ArrowLeft', false)
    gestures.step('ArrowLeft', true)
    gestures.letGo()
    expect(before - desk.pose.joints.midHip[0]).toBeGreaterThan(0.1)
    expect(before - desk.pose.joints.midHip[0]).toBeLessThan(0.16)
    expect(desk.undoLabel).toBe('Move pelvis')
  })

  test('an arrow is 1 cm on people and in proportion on others', () => {
    expect(arrowStep(1.75)).toBeCloseTo(0.01, 12)
    expect(arrowStep(2.6)).toBeCloseTo(0.01, 12)
    expect(arrowStep(6)).toBeCloseTo(0.02, 12)
    expect(arrowStep(25)).toBeCloseTo(0.1, 12)
    expect(arrowStep(0.2)).toBeCloseTo(0.001, 12)
  })

  test('arrows reach every handle of a view from the pelvis', () => {
    const { stage } = onStage()
    for (const view of ['front', 'side', 'floor'] as const) {
      const grips = stage.drawing.grips.filter((grip) => grip.view.id === view)
      const reached = new Set(['pelvis'])
      const todo = grips.filter(({ thing }) => thing.id === 'pelvis')
      for (let from = todo.pop(); from; from = todo.pop())
        for (const arrow of ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown'] as const) {
          const to = gripToward(grips, from, arrow)
          if (!reached.has(to.thing.id)) {
            reached.add(to.thing.id)
            todo.push(to)
          }
        }
      expect(
        grips.map(({ thing }) => thing.id).filter((id) => !reached.has(id)),
        view,
      ).toEqual([])
    }
  })
})

describe('planting, rolling, freeing', () => {
  const act = (desk: Desk, part: ContactPart, label: string) => {
    const found = plantings(desk, part).find((one) => one.label === label)
    if (!found) throw new Error(`${part} has ${plantings(desk, part).map((one) => one.label)}`)
    found.run()
  }
  const partsAt = (desk: Desk, frame: number) =>
    contactsAt(desk.take, frame)
      .map(({ part, kind }) => `${part} ${kind}`)
      .sort()

  test('a freed leg stays where it was, from this frame on, in one step of undo', () => {
    const { desk, plan } = onStage()
    desk.setFrame(9)
    const knee = desk.pose.joints.kneeL
    act(desk, 'kneeL', 'Free the whole leg')
    expect(distance(desk.pose.joints.kneeL, knee)).toBeLessThan(0.03 * desk.body.stature)
    expect(partsAt(desk, 9).some((one) => /^(knee|foot)L/.test(one))).toBe(false)
    expect(partsAt(desk, 8)).toContain('kneeL kneecap')
    desk.undo()
    expect(desk.plan).toBe(plan)
  })

  test('a freed knee can be planted again where it is', () => {
    const { desk } = onStage()
    act(desk, 'kneeL', 'Free it')
    const knee = desk.pose.joints.kneeL
    act(desk, 'kneeL', 'Plant kneecap')
    expect(partsAt(desk, 0)).toContain('kneeL kneecap')
    expect(distance(desk.pose.joints.kneeL, knee)).toBeLessThan(0.02 * desk.body.stature)
  })

  test('a fist rolls to a palm on the same block, and tucked toes to the instep', () => {
    const { desk } = onStage()
    act(desk, 'handL', 'Roll to palm')
    act(desk, 'footR', 'Roll to instep')
    expect(partsAt(desk, 0)).toEqual(expect.arrayContaining(['handL palm', 'footR instep']))
    expect(contactsAt(desk.take, 0).find(({ part }) => part === 'handL')?.on).not.toBe('ground')
    expect(desk.pose.pads.map(({ part }) => part)).toEqual(expect.arrayContaining(['handL', 'footR']))
  })
})

describe('blocks', () => {
  test('on the ground page blocks are moved and sized in the views, and what stands on them goes along', () => {
    const { desk, stage, drag } = onStage()
    desk.setPage('ground')
    const [box] = desk.plan.ground.boxes
    const fist = () =>
      contactsAt(desk.take, 0).find(({ part }) => part === 'handL')?.position as readonly number[]
    const before = fist()
    expect(stage.drawing.things.every(({ handle }) => handle === null)).toBe(true)
    drag(`${box?.id}-height`, 0, -20)()
    const rise = (desk.plan.ground.boxes[0]?.size[1] as number) - (box?.size[1] as number)
    expect(rise).toBeGreaterThan(0.03)
    expect((fist()[1] as number) - (before[1] as number)).toBeCloseTo(rise, 9)
    drag(`${box?.id}-left`, 20, 0, 'floor')()
    const after = desk.plan.ground.boxes[0]
    const edge = (b: typeof box) => (b?.position[0] as number) - (b?.size[0] as number) / 2
    expect(after?.size[0]).toBeGreaterThan(box?.size[0] as number)
    expect(edge(after)).toBeCloseTo(edge(box), 9)
  })
})

test('the stage in words: verdict, every load with its kilograms, what stops the pose', () => {
  const { desk } = onStage()
  const { weighing } = desk.weighed
  const words = { headline: 'His left leg is pinned here.', sentences: ['It carries 45 %.'] }
  const text = describeStage(desk.plan, 0, desk.pose, weighing, words)
  expect(text).toMatch(/^Frame 1001\. His left leg is pinned here\. It carries 45 %\./)
  for (const name of ['left leg', 'right leg', 'left fist'])
    expect(text).toMatch(new RegExp(`${name} \\d+\\s%, \\d+\\skg`))
})

describe('a picture under a view', () => {
  const picture = { image: {} as CanvasImageSource, width: 400, height: 800, label: 'ref' }

  test('two points of it are as far apart as was typed, and the first stays where it is', () => {
    const { stage } = onStage()
    const view = stage.drawing.view('front')
    if (!view) throw new Error('no front view')
    const still = layStill(picture, view)
    const at = (s: typeof still, px: number, py: number) =>
      [s.corner[0] + px * s.metresPerPixel, s.corner[1] - py * s.metresPerPixel] as const
    const [a, b] = [at(still, 100, 700), at(still, 100, 200)]
    const scaled = scaleStill(still, [a, b], 1.3)
    const [a2, b2] = [at(scaled, 100, 700), at(scaled, 100, 200)]
    expect(Math.hypot(a2[0] - b2[0], a2[1] - b2[1])).toBeCloseTo(1.3, 12)
    expect(a2[0]).toBeCloseTo(a[0], 12)
    expect(a2[1]).toBeCloseTo(a[1], 12)
    expect(scaleStill(still, [a, a], 1.3)).toBe(still)
  })

  test('is dragged where it should lie and stood on the ground by a press', () => {
    const { stage } = onStage()
    const view = stage.drawing.view('front')
    if (!view) throw new Error('no front view')
    stage.setStill(layStill(picture, view))
    const gestures = new StillGestures(stage)
    const before = stage.still?.corner
    stage.setTask({ kind: 'move' })
    gestures.press({ x: 200, y: 200, touch: false })
    gestures.move({ x: 200 + view.scale, y: 200, touch: false })
    expect(gestures.release()).toBe(true)
    expect((stage.still?.corner[0] as number) - (before?.[0] as number)).toBeCloseTo(1, 9)
    stage.setTask({ kind: 'ground' })
    gestures.press({ x: 200, y: view.y0 - 50, touch: false })
    expect((before?.[1] as number) - (stage.still?.corner[1] as number)).toBeCloseTo(50 / view.scale, 9)
    expect(stage.task).toBeNull()
  })
})
