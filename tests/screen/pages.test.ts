import { cleanup, render, screen, within } from '@testing-library/svelte'
import { flushSync } from 'svelte'
import { afterEach, describe, expect, test } from 'vitest'
import { BUILDS } from '../../src/body/builds'
import type { CopyBoard } from '../../src/keep/clipboard'
import { contactsAt } from '../../src/pose/between'
import { Desk } from '../../src/screen/desk.svelte'
import type { PageId } from '../../src/screen/desk-view'
import Pages from '../../src/screen/pages/Pages.svelte'
import ReviewPage from '../../src/screen/pages/ReviewPage.svelte'
import { stageStateOf } from '../../src/screen/stage/stage-state.svelte'
import { distance } from '../../src/space/vec'
import { capstone } from '../support/capstone'
import '../support/jsdom-layout'

HTMLCanvasElement.prototype.getContext = () => null
afterEach(cleanup)

function open(page: PageId): Desk {
  const desk = new Desk(capstone())
  stageStateOf(desk).drawing.setSize(838, 676, false)
  desk.setPage(page)
  render(Pages, { desk })
  return desk
}

/** Types into a field and leaves it, as a keyboard does. */
function type(label: string | RegExp, text: string, among: HTMLElement = document.body): HTMLInputElement {
  const field = within(among).getByLabelText<HTMLInputElement>(label)
  field.focus()
  field.value = text
  field.dispatchEvent(new Event('change', { bubbles: true }))
  flushSync()
  return field
}

const press = (name: string | RegExp) => {
  screen.getByRole('button', { name }).click()
  flushSync()
}

describe('the row of words', () => {
  test('opens each page and says which is open', () => {
    const desk = open('weigh')
    for (const name of ['Body', 'Ground', 'Pose', 'Stances', 'Review', 'Weigh']) {
      press(name)
      expect(screen.getByRole('button', { name })).toHaveAttribute('aria-current', 'page')
      expect(desk.page).toBe(name.toLowerCase())
    }
  })
})

describe('Weigh', () => {
  test('says without being asked that the left leg is pinned, what it carries and how far the weight must go', () => {
    open('weigh')
    expect(screen.getByRole('heading', { name: 'His left leg is pinned here.' })).toBeInTheDocument()
    expect(document.body).toHaveTextContent(
      /It carries \d+\s% \(\d+\skg\); it can’t carry less than \d+\s%\./,
    )
    expect(document.body).toHaveTextContent(
      /Empty when the weight is \d+\scm further to his right; safe at \d+\scm\./,
    )
  })

  test('a row for each limb with share, kilograms and verdict; clicking one asks whether it can lift', () => {
    const desk = open('weigh')
    const rows = within(screen.getByRole('list', { name: 'What each limb carries' })).getAllByRole('listitem')
    expect(rows.map((row) => row.textContent?.replace(/\s+/g, ' '))).toEqual([
      expect.stringMatching(/Leg L.*%.*kg.*pinned/),
      expect.stringMatching(/Leg R.*%.*kg/),
      expect.stringMatching(/Fist L.*%.*kg.*could let go/),
    ])
    press(/Fist L/)
    expect(desk.mover).toEqual({ limb: 'armL', toesStay: false })
    expect(screen.getByRole('heading', { name: 'His left fist could let go here.' })).toBeInTheDocument()
  })

  test('the toes may stay: one switch, one step of undo, and the headline speaks of the knee', () => {
    const desk = open('weigh')
    screen.getByRole<HTMLInputElement>('checkbox', { name: /toes may stay/ }).click()
    flushSync()
    expect(desk.mover.toesStay).toBe(true)
    expect(screen.getByRole('heading', { level: 2 })).toHaveTextContent(/His left knee/)
    expect(desk.undoLabel).toBe('Toes may stay')
  })

  test('the lean that empties it is found, and doing it empties the leg in one step of undo', () => {
    const desk = open('weigh')
    const before = desk.plan
    press('Find the lean that empties it')
    const leans = screen.getByRole('list', { name: 'Leans that empty it' })
    expect(leans).toHaveTextContent(/Shift the pelvis \d+\scm .*to his right\./)
    within(leans).getAllByRole('button', { name: 'Do it' })[0]?.click()
    flushSync()
    expect(['empty', 'could let go']).toContain(desk.verdict.kind)
    expect(screen.queryByRole('button', { name: /Find the lean/ })).toBeNull()
    desk.undo()
    expect(desk.plan).toBe(before)
  })

  test('a stopped pose names its limb', () => {
    const desk = open('weigh')
    const far = { ...desk.pose.asked, 'pelvis.x': 1.2 }
    desk.edit('Move pelvis', (plan) => ({
      ...plan,
      takes: plan.takes.map((take) => ({
        ...take,
        channels: {
          ...take.channels,
          'pelvis.x': take.channels['pelvis.x'].map((key) => ({ ...key, value: far['pelvis.x'] })),
        },
      })),
    }))
    flushSync()
    const [limit] = desk.pose.limits
    expect(limit).toBeDefined()
    expect(document.body).toHaveTextContent(limit?.text as string)
  })
})

describe('Pose', () => {
  test('takes a number with another unit, and shows what is reached', () => {
    const desk = open('pose')
    const before = desk.pose.joints.midHip[1]
    type('height', '23 in')
    expect(desk.undoLabel).toBe('Type pelvis')
    expect(desk.pose.asked['pelvis.y']).toBeCloseTo(23 * 0.0254, 9)
    expect(desk.pose.joints.midHip[1]).not.toBe(before)
  })

  test('says what is wrong with what was typed and keeps the old value', () => {
    const desk = open('pose')
    const before = desk.plan
    const shown = screen.getByLabelText<HTMLInputElement>('turn to his left').value
    const field = type('turn to his left', 'twelve')
    expect(desk.plan).toBe(before)
    expect(field.value).toBe(shown)
    expect(screen.getByRole('alert')).toHaveTextContent(
      `“twelve” is no number; type 12 ° or 30°.`.slice(0, 24),
    )
    type('turn to his left', '10°')
    expect(screen.queryByRole('alert')).toBeNull()
    expect(desk.pose.reached['pelvis.turn']).toBeCloseTo(Math.PI / 18, 9)
  })

  test('shows the numbers of the handle that is chosen on the stage, and plants and frees it', () => {
    const desk = open('pose')
    stageStateOf(desk).choose('kneeL', 'front')
    flushSync()
    expect(screen.getByLabelText('knee, left')).toBeInTheDocument()
    press('Free the whole leg')
    expect(
      contactsAt(desk.take, 0).filter(({ part }) => part.endsWith('L') && !part.startsWith('hand')),
    ).toEqual([])
    press('Plant kneecap')
    expect(contactsAt(desk.take, 0).map(({ part }) => part)).toContain('kneeL')
  })

  test('mirrors the pose; what is planted stays', () => {
    const desk = open('pose')
    const { reached } = desk.pose
    const contacts = contactsAt(desk.take, 0)
    press('Mirror the pose')
    expect(desk.pose.asked['chest.list']).toBeCloseTo(-reached['chest.list'], 9)
    expect(contactsAt(desk.take, 0)).toEqual(contacts)
  })
})

describe('Body', () => {
  test('another height keeps the drawing and takes mass along with the cube', () => {
    const desk = open('body')
    const { com } = desk.pose
    const shares = desk.weighed.weighing.limbs.map(({ vertical }) => vertical)
    type('Height', '1.3 m')
    expect(desk.plan.body.mass).toBeCloseTo(420 / 8, 6)
    expect(distance(desk.pose.com, com.map((x) => x / 2) as unknown as typeof com)).toBeLessThan(1e-3)
    for (const [i, share] of desk.weighed.weighing.limbs.map(({ vertical }) => vertical).entries())
      expect(share).toBeCloseTo(shares[i] as number, 2)
  })

  test('another mass changes kilograms, not the pose; the natural one is offered', () => {
    const desk = open('body')
    const { joints } = desk.pose
    type('Mass', '900 kg')
    expect(desk.pose.mass).toBeGreaterThan(890)
    expect(desk.pose.joints.midHip).toEqual(joints.midHip)
    press(/^Natural/)
    expect(desk.plan.body.mass).toBeLessThan(420)
  })

  test('what changed is said since the first of the changes, and goes when they are taken back', () => {
    const desk = open('body')
    type('Height', '4 m')
    type('Mass', '2000 kg')
    const lines = () => screen.queryAllByRole('status').flatMap((one) => within(one).getAllByRole('listitem'))
    expect(lines().map((line) => line.textContent)).toEqual([
      'height: 2.6\u00a0m → 4\u00a0m',
      'mass: 420\u00a0kg → 2000\u00a0kg',
      expect.stringMatching(/^leg L, \d+\s%: \d+\skg → \d+\skg$/),
      expect.stringMatching(/^leg R, /),
      expect.stringMatching(/^fist L, /),
      expect.stringMatching(/^weight to move: \d+\scm → \d+\scm$/),
    ])
    desk.undo()
    flushSync()
    expect(lines()).toEqual([])
  })

  test('every build keeps the stance: knees and fist still bear', () => {
    for (const { name } of BUILDS) {
      const desk = open('body')
      const parts = desk.pose.pads.map(({ part }) => part).sort()
      press(new RegExp(`^${name}`))
      expect(desk.pose.pads.map(({ part }) => part).sort(), name).toEqual(parts)
      cleanup()
    }
  })

  test('a rig’s length is typed in the scene’s own unit', () => {
    const desk = open('body')
    const thigh = desk.body.lengths.thigh
    type('hip to knee', '70')
    expect(desk.body.lengths.thigh).toBeCloseTo(0.7, 6)
    expect(desk.body.lengths.thigh).not.toBeCloseTo(thigh, 3)
    expect(desk.pose.pads.length).toBeGreaterThan(3)
  })

  test('a carried load is added, weighs, and is taken away', () => {
    const desk = open('body')
    const before = desk.pose.mass
    press('Add a load')
    expect(desk.pose.mass).toBeCloseTo(before + 42, 0)
    const load = screen.getByRole('group', { name: 'Load' })
    type('mass', '100 kg', load)
    expect(desk.pose.mass).toBeCloseTo(before + 100, 6)
    within(load).getByRole('button', { name: 'Take it away' }).click()
    expect(desk.pose.mass).toBeCloseTo(before, 9)
  })
})

describe('Ground', () => {
  test('grip in three words, each with what it means', () => {
    const desk = open('ground')
    screen.getByRole<HTMLInputElement>('radio', { name: 'slippery' }).click()
    flushSync()
    expect(desk.plan.ground.grip).toBe('slippery')
    expect(document.body).toHaveTextContent('like shoes on ice: it holds sideways with up to 0.1')
  })

  test('a block is added, sized by number and taken away', () => {
    const desk = open('ground')
    press('Add a step')
    const step = screen.getByRole('group', { name: 'step' })
    type('height', '30 cm', step)
    expect(desk.plan.ground.boxes.at(-1)?.size[1]).toBeCloseTo(0.3, 9)
    const wrong = type('width', '-5', step)
    expect(desk.plan.ground.boxes.at(-1)?.size[0]).toBeGreaterThan(0)
    expect(wrong).toHaveAttribute('aria-invalid', 'true')
    within(step).getByRole('button', { name: 'Take it away' }).click()
    expect(desk.plan.ground.boxes).toHaveLength(1)
  })
})

describe('Stances', () => {
  test('a stance takes the place of what comes after, in one step of undo', () => {
    const desk = open('stances')
    const before = desk.plan
    press('Heel sit')
    expect(
      contactsAt(desk.take, 0)
        .map(({ kind }) => kind)
        .sort(),
    ).toEqual(['instep', 'instep', 'kneecap', 'kneecap'])
    const last = desk.motion.poseAt(desk.take.length - 1)
    expect(distance(last.joints.midHip, desk.pose.joints.midHip)).toBeLessThan(1e-9)
    expect(desk.status?.text).toContain('undo brings them back')
    desk.undo()
    expect(desk.plan).toBe(before)
  })
})

describe('Review', () => {
  test('notes are written at the frame, changed and deleted', () => {
    const desk = open('review')
    const field = screen.getByRole<HTMLTextAreaElement>('textbox', { name: /New note/ })
    field.value = 'The hips lead too late.'
    field.dispatchEvent(new Event('input', { bubbles: true }))
    flushSync()
    press('Note')
    expect(desk.take.notes.at(-1)).toMatchObject({ frame: 0, text: 'The hips lead too late.' })
    press('Delete the note')
    expect(desk.take.notes.some(({ text }) => text.startsWith('The hips'))).toBe(false)
  })

  test('a copy is changed before the take it came from, and the differences are said key by key', () => {
    const desk = open('review')
    press('Keep this take, change a copy')
    expect(desk.compared?.name).toBe('Corrected lean')
    desk.edit('Move pelvis', (plan) => ({
      ...plan,
      takes: plan.takes.map((take) =>
        take.id === desk.takeId
          ? {
              ...take,
              channels: {
                ...take.channels,
                'pelvis.x': take.channels['pelvis.x'].map((key, i) =>
                  i === 0 ? { ...key, value: key.value - 0.1 } : key,
                ),
              },
            }
          : take,
      ),
    }))
    flushSync()
    expect(
      screen.getByRole('button', { name: /^1001 pelvis \d+\scm to his right.*leg L \d+\s% → \d+\s%/ }),
    ).toBeVisible()
    expect(screen.getByRole('button', { name: /^1010 the same/ })).toBeVisible()
  })

  test('where the browser does not copy pictures, it says what to do instead', async () => {
    const refuses: CopyBoard = {
      copyText: async () => ({ kind: 'refused', message: 'Copy it by hand.' }),
      copyPicture: async (png) => {
        await Promise.resolve(png).catch(() => undefined)
        return { kind: 'refused', message: 'Save it to a file instead.' }
      },
    }
    const desk = new Desk(capstone())
    stageStateOf(desk).drawing.setSize(838, 676, false)
    render(ReviewPage, { desk, copyBoard: refuses })
    press('Copy the picture')
    await expect.poll(() => desk.status?.text).toBe('Save it to a file instead.')
    expect(desk.status?.kind).toBe('problem')
  })
})
