import { type LimbId, limbOf } from '../../document/contacts'
import type { PlacedHandle } from '../../draw/hits'
import { type StageInput, type StageMover, stageMover, stageWeights, WORDS } from '../../draw/input'
import { type Arrangement, type Bounds, boundsOf, layoutStage, type StageLayout } from '../../draw/layout'
import type { Rect } from '../../draw/list'
import { withMotion } from '../../draw/motion-marks'
import { project, type View, type ViewId } from '../../draw/project'
import { drawStage, type Stage } from '../../draw/stage'
import { withTarget } from '../../draw/target'
import { keyPosesOf } from '../../plan/key-poses'
import { contactsAt, loadsAt } from '../../pose/between'
import type { FootWay } from '../../pose/grasp'
import type { Placement, ReachedPose } from '../../pose/types'
import { centimetres, neededText } from '../../sheet/format'
import type { Desk } from '../desk.svelte'
import { motionMarks, onionOf } from '../timing/marks'
import { withAskedPelvis } from './asked'
import { boxHoldables, type Holdable, poseHoldables, targetHoldable } from './holdable'
import type { Target } from './target'

/** A thing that can be taken hold of, where one view shows it. */
export interface Grip {
  readonly thing: Holdable
  readonly view: View
  /** px */
  readonly x: number
  readonly y: number
  /** Whether another part of the body lies before it. */
  readonly covered: boolean
}

/** What the drawing asks whoever is at work on it. */
interface Asks {
  /** What becomes of the foot when its knee is moved. */
  readonly foot: () => FootWay
  readonly target: () => Target | null
  /** A pose that a page lets be seen. */
  readonly ghost: () => ReachedPose | null
}

/** Where the pelvis would have to be, and for which frame and mover. */
export interface Faint {
  readonly pelvis: Placement
  readonly takeId: string
  readonly frame: number
  readonly limb: LimbId
}

/** The drawing of the desk's frame in the room it has, and what can be taken hold of in it. */
export class StageDrawing {
  readonly #desk: Desk
  readonly #asks: Asks
  #size = $state.raw({ width: 0, height: 0 })
  #narrow = $state.raw(false)
  #faint: Faint | null = $state.raw(null)
  /** The last settled bounds and layout: a drawing must not change its scale under the pointer. */
  #held: Bounds | null = null

  constructor(desk: Desk, asks: Asks) {
    this.#desk = desk
    this.#asks = asks
  }

  /** The room that the stage and the page beside it have together, px. */
  setSize(width: number, height: number, narrow: boolean): void {
    const { width: w, height: h } = this.#size
    if (width !== w || height !== h) this.#size = { width, height }
    this.#narrow = narrow
  }

  /** The drawing's own part of the room. */
  get size(): { readonly width: number; readonly height: number } {
    const { width, height } = this.#size
    const beside = this.#desk.view.enlarged !== null && !this.#narrow
    return { width: Math.max(1, beside ? width - BESIDE : width), height: Math.max(1, height) }
  }

  /** What is left for the page being read; empty where it stands under the drawing. */
  get free(): Rect {
    if (this.#narrow || this.#desk.view.enlarged === null) return this.layout.free
    const { width, height } = this.size
    return { x: width, y: 0, width: BESIDE, height }
  }

  /** Where the pelvis would have to be for the mover to be empty, once that is known. */
  setFaint(faint: Faint | null): void {
    this.#faint = faint
  }

  readonly #bounds: Bounds = $derived.by(() => {
    const { body, take, motion, plan, busy } = this.#desk
    if (busy && this.#held !== null) return this.#held
    const poses = keyPosesOf(take).map((frame) => motion.poseAt(frame))
    const needed = boundsOf(body, poses, plan.ground.boxes)
    if (this.#held === null || !fits(needed, this.#held)) this.#held = needed
    return this.#held
  })

  readonly layout: StageLayout = $derived.by(() => {
    const { view, take } = this.#desk
    const limbs = new Set(take.contacts.map(({ part }) => limbOf(part)))
    return layoutStage({
      ...this.size,
      arrangement: this.#arrangement,
      bounds: this.#bounds,
      facing: { sideFrom: view.sideFrom, mirrored: view.mirrored },
      loadRows: limbs.size > 2 ? 2 : 1,
    })
  })

  get #arrangement(): Arrangement {
    const { enlarged } = this.#desk.view
    // Under the shot's camera the drawing isn't seen; its layout is the front view's.
    if (enlarged !== null) return { kind: 'single', view: enlarged === 'shot' ? 'front' : enlarged }
    return this.#narrow ? { kind: 'stack' } : { kind: 'quarter' }
  }

  readonly things: readonly Holdable[] = $derived.by(() => {
    const { plan, takeId, take, frame, body, pose, page } = this.#desk
    if (page === 'ground') return boxHoldables(plan, plan.ground)
    const contacts = contactsAt(take, frame)
    const things = poseHoldables({ plan, takeId, frame, body, pose, contacts, foot: this.#asks.foot() })
    const target = this.#asks.target()
    return target ? [targetHoldable(target, plan), ...things] : things
  })

  readonly stage: Stage = $derived.by(() => {
    const { desk, layout } = { desk: this.#desk, layout: this.layout }
    const { body, pose, plan, take, frame, weighed, view, comparedPose } = desk
    const input: StageInput = {
      layout,
      body,
      pose,
      boxes: plan.ground.boxes,
      carried: loadsAt(take, frame),
      weights: stageWeights(weighed.weighing, pose.mass),
      mover: this.#mover,
      // While one is held nobody looks for another.
      handles: desk.busy ? [] : this.#poseHandles,
      ghosts: [
        ...onionOf(desk).map((pose) => ({ body, pose, style: 'onion' as const })),
        ...[this.#asks.ghost() ?? comparedPose].flatMap((pose) =>
          pose ? [{ body, pose, style: 'outline' as const }] : [],
        ),
      ],
      show: { solid: view.solid },
      words: this.#words,
    }
    const stage = drawStage(input)
    const list = withAskedPelvis(stage.list, input)
    const motion = motionMarks(desk)
    const moved = motion ? withMotion(list, layout, body.stature, motion) : list
    const target = this.#asks.target()
    return { ...stage, list: target ? withTarget(moved, layout, target) : moved }
  })

  get #poseHandles(): NonNullable<StageInput['handles']> {
    return this.things.flatMap(({ handle, at, limb }) =>
      handle === null || limb === null ? [] : [{ id: handle, at, limb }],
    )
  }

  get #mover(): StageMover {
    const { mover, verdict, takeId, frame, body } = this.#desk
    const faint = this.#faint
    const still = faint?.takeId === takeId && faint.frame === frame && faint.limb === mover.limb
    const made = stageMover(mover.limb, verdict, still ? faint.pelvis : undefined)
    // Said as the page says it: rounded up, so that whoever goes that far is there.
    return made.move === null || verdict.empty === null
      ? made
      : { ...made, distance: neededText(verdict.empty.distance, centimetres(body.stature)) }
  }

  /** The first view says which frame is shown. */
  get #words(): StageInput['words'] {
    const { plan, frame } = this.#desk
    const label = plan.firstFrame + frame
    const [first] = this.layout.views
    const views = { ...WORDS.views }
    if (first === undefined) return {}
    if (first.id !== 'side') return { views: { ...views, [first.id]: `${views[first.id]}  ${label}` } }
    const { R, L } = WORDS.sideFrom
    return { sideFrom: { R: `${R}  ${label}`, L: `${L}  ${label}` } }
  }

  /** Every thing in every view. */
  readonly grips: readonly Grip[] = $derived.by(() => {
    const placed = new Map(this.stage.hits.handles.map((hit) => [`${hit.view} ${hit.id}`, hit]))
    return this.layout.views.flatMap((view) =>
      this.things.map((thing): Grip => {
        const hit: PlacedHandle | undefined = placed.get(`${view.id} ${thing.handle}`)
        const [x, y] = hit ? [hit.x, hit.y] : project(view, thing.at)
        return { thing, view, x, y, covered: hit?.covered ?? false }
      }),
    )
  })

  /** One thing in one view, without placing the others. */
  gripOf(id: string, view: View): Grip | null {
    const thing = this.things.find((one) => one.id === id)
    if (thing === undefined) return null
    const [x, y] = project(view, thing.at)
    return { thing, view, x, y, covered: false }
  }

  viewAt(x: number, y: number): View | null {
    const inside = ({ area }: View) =>
      x >= area.x && x <= area.x + area.width && y >= area.y && y <= area.y + area.height
    return this.layout.views.find(inside) ?? null
  }

  view(id: ViewId): View | undefined {
    return this.layout.views.find((view) => view.id === id)
  }
}

/** The held bounds still do: what is needed lies within and isn't much smaller. */
function fits(needed: Bounds, held: Bounds): boolean {
  return ([0, 1, 2] as const).every((i) => {
    const [size, room] = [needed.max[i] - needed.min[i], held.max[i] - held.min[i]]
    return (
      needed.min[i] >= held.min[i] - SLACK * room &&
      needed.max[i] <= held.max[i] + SLACK * room &&
      size > (1 - LOOSE) * room
    )
  })
}

/** Width of the page beside an enlarged view, px. */
const BESIDE = 360

/** The drawing keeps its scale while what is needed sticks out by this share, or fills all but this share. */
const SLACK = 0.03
const LOOSE = 0.25
