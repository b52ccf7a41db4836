import { BUILDS } from '../../src/body/builds'
import { CHANNELS } from '../../src/document/channels'
import { CONTACT_PARTS, KINDS_OF, LIMBS, partKind } from '../../src/document/contacts'
import { PHASES, type Plan, type Take } from '../../src/document/plan'
import { EXPOSURES, LAG_PARTS, STYLES } from '../../src/document/take'
import {
  addContact,
  changeContact,
  deleteContact,
  liftPart,
  moveContact,
  trimContact,
} from '../../src/plan/edit/contacts'
import { insertFrames, removeFrames, scaleTime, setLength } from '../../src/plan/edit/frames'
import { addBox, changeBox, deleteBox, setGrip } from '../../src/plan/edit/ground'
import { setBody, setCamera, setHeader, setStiffness } from '../../src/plan/edit/head'
import { copyKeys, deleteKeys, moveKeys, setControls, setEase } from '../../src/plan/edit/keys'
import { resizePlan } from '../../src/plan/edit/resize'
import {
  addTake,
  deleteTake,
  duplicateTake,
  renameTake,
  replaceTake,
  setLag,
  setManner,
  setMover,
} from '../../src/plan/edit/takes'
import { accents, arcs, loads, notes, phases, setAside } from '../../src/plan/edit/things'
import { mirrorPlan, mirrorTakeAt } from '../../src/plan/mirror'
import { between } from '../../src/space/random'
import { pick, randomBox, randomControls, type Source, wholeBetween } from './random-plan'

type Edit = (plan: Plan, take: Take, next: Source) => Plan

/** Every edit of the plan, with arguments that a user could give, absurd ones among them. */
export const EDITS: Readonly<Record<string, Edit>> = {
  setControls: (p, t, n) =>
    setControls(p, t.id, frame(n), n() < 0.5 ? randomControls(n) : { [pick(n, CHANNELS)]: absurd(n) }),
  moveKeys: (p, t, n) => moveKeys(p, t.id, keyed(t, n), frame(n)),
  copyKeys: (p, t, n) => copyKeys(p, t.id, keyed(t, n), frame(n), someChannels(n)),
  deleteKeys: (p, t, n) => deleteKeys(p, t.id, keyed(t, n), n() < 0.5 ? someChannels(n) : CHANNELS),
  setEase: (p, t, n) => setEase(p, t.id, keyed(t, n), n() < 0.5 ? { in: absurd(n) } : { in: n(), out: n() }),
  addContact: (p, t, n) => {
    const part = pick(n, CONTACT_PARTS)
    return addContact(p, t.id, {
      part,
      kind: pick(n, KINDS_OF[partKind(part)]),
      position: [absurd(n), 0, n()],
      heading: absurd(n),
      normal: pick(n, [
        [0, 1, 0],
        [2, 0, 0],
        [0, 0.1, 0.1],
      ] as const),
      on: pick(n, ['ground', ...p.ground.boxes.map(({ id }) => id)]),
      from: frame(n),
      to: frame(n),
    })
  },
  liftPart: (p, t, n) => liftPart(p, t.id, pick(n, CONTACT_PARTS), frame(n), frame(n)),
  trimContact: (p, t, n) =>
    withContact(t, p, n, (id) =>
      trimContact(
        p,
        t.id,
        id,
        pick(n, [{ from: frame(n) }, { to: frame(n) }, { from: frame(n), to: frame(n) }]),
      ),
    ),
  moveContact: (p, t, n) => withContact(t, p, n, (id) => moveContact(p, t.id, id, wholeBetween(n, -40, 40))),
  changeContact: (p, t, n) =>
    withContact(t, p, n, (id) => changeContact(p, t.id, id, { heading: absurd(n), state: 'rolling' })),
  deleteContact: (p, t, n) => withContact(t, p, n, (id) => deleteContact(p, t.id, id)),
  setLength: (p, t, n) => setLength(p, t.id, wholeBetween(n, -5, 200)),
  insertFrames: (p, t, n) => insertFrames(p, t.id, frame(n), wholeBetween(n, -2, 20)),
  removeFrames: (p, t, n) => removeFrames(p, t.id, frame(n), wholeBetween(n, -2, 20)),
  scaleTime: (p, t, n) => scaleTime(p, t.id, between(n, 0.3, 2)),
  addBox: (p, _, n) => addBox(p, randomBox(n, 'ignored')),
  changeBox: (p, _, n) =>
    withBox(p, n, (id) =>
      changeBox(
        p,
        id,
        pick(n, [
          { position: [absurd(n), 0, 0] as const },
          { size: [1, absurd(n), 1] as const },
          { turn: absurd(n) },
          { name: 'kerb', grip: 'rough' as const },
        ]),
      ),
    ),
  deleteBox: (p, _, n) => withBox(p, n, (id) => deleteBox(p, id, n() < 0.5 ? 'keep' : 'delete')),
  setGrip: (p, _, n) => setGrip(p, pick(n, ['slippery', 'normal', 'rough'])),
  setHeader: (p, _, n) =>
    setHeader(
      p,
      pick(n, [
        { title: 'two\nlines\u0000' },
        { character: 'x'.repeat(500) },
        { rate: { num: wholeBetween(n, -1, 100), den: wholeBetween(n, -1, 100) } },
        { firstFrame: wholeBetween(n, -5, 2000) },
        { gravity: absurd(n) },
      ]),
    ),
  setBody: (p, _, n) => setBody(p, { ...pick(n, BUILDS).spec, hipWidth: absurd(n) }),
  setCamera: (p, _, n) =>
    setCamera(
      p,
      n() < 0.2 ? null : { position: [absurd(n), 1.5, absurd(n)], aim: [absurd(n), 1.5, 0], lens: absurd(n) },
    ),
  setStiffness: (p, _, n) =>
    setStiffness(
      p,
      pick(n, ['sole', 'palm', 'toes'] as const),
      pick(n, [undefined, 0.5, 1, absurd(n), absurd(n)]),
    ),
  resizePlan: (p, _, n) => resizePlan(p, pick(n, [0.3, 1, 1.75, 6, 29, 1000])),
  addTake: (p, t) => addTake(p, t),
  duplicateTake: (p, t) => duplicateTake(p, t.id, `${t.name} again`),
  replaceTake: (p, t) => replaceTake(p, { ...t, name: 'replaced' }),
  renameTake: (p, t, n) => renameTake(p, t.id, pick(n, ['first', 'second\nline', 'x'.repeat(300)])),
  deleteTake: (p, t) => deleteTake(p, t.id),
  setMover: (p, t, n) => setMover(p, t.id, { limb: pick(n, ['legL', 'armR']), toesStay: n() < 0.5 }),
  addNote: (p, t, n) => notes.add(p, t.id, { frame: frame(n), text: 'hips\r\nfirst\u0007' }),
  changeNote: (p, t, n) =>
    t.notes.length === 0 ? p : notes.change(p, t.id, pick(n, t.notes).id, { frame: frame(n) }),
  deleteNote: (p, t, n) => (t.notes.length === 0 ? p : notes.delete(p, t.id, pick(n, t.notes).id)),
  addPhase: (p, t, n) => phases.add(p, t.id, { name: pick(n, PHASES), from: frame(n), to: frame(n) }),
  addLoad: (p, t, n) =>
    loads.add(p, t.id, {
      name: 'pack',
      mass: absurd(n),
      on: 'back',
      offset: [0, absurd(n), 0],
      from: frame(n),
      to: frame(n),
    }),
  changeLoad: (p, t, n) =>
    t.loads.length === 0 ? p : loads.change(p, t.id, pick(n, t.loads).id, { mass: absurd(n), to: frame(n) }),
  setManner: (p, t, n) =>
    setManner(
      p,
      t.id,
      pick(n, [
        { exposure: pick(n, EXPOSURES) },
        { style: pick(n, STYLES), push: absurd(n) },
        { pace: absurd(n) },
      ]),
    ),
  setLag: (p, t, n) => setLag(p, t.id, pick(n, LAG_PARTS), absurd(n)),
  addArc: (p, t, n) =>
    arcs.add(p, t.id, {
      limb: pick(n, LIMBS),
      from: frame(n),
      to: frame(n),
      height: absurd(n),
      side: absurd(n),
    }),
  changeArc: (p, t, n) =>
    t.arcs.length === 0
      ? p
      : arcs.change(
          p,
          t.id,
          pick(n, t.arcs).id,
          pick(n, [{ from: frame(n) }, { to: frame(n) }, { limb: pick(n, LIMBS) }, { height: absurd(n) }]),
        ),
  deleteArc: (p, t, n) => (t.arcs.length === 0 ? p : arcs.delete(p, t.id, pick(n, t.arcs).id)),
  addAccent: (p, t, n) => accents.add(p, t.id, { frame: frame(n), name: 'gear\nopens' }),
  changeAccent: (p, t, n) =>
    t.accents.length === 0 ? p : accents.change(p, t.id, pick(n, t.accents).id, { frame: frame(n) }),
  addSetAside: (p, t, n) =>
    setAside.add(p, t.id, { rule: 'stops-dead', from: frame(n), reason: 'he hits the wall\r\nthere' }),
  deleteSetAside: (p, t, n) =>
    t.setAside.length === 0 ? p : setAside.delete(p, t.id, pick(n, t.setAside).id),
  mirrorPlan: (p) => mirrorPlan(p),
  mirrorTakeAt: (p, t, n) => mirrorTakeAt(p, t.id, keyed(t, n)),
}

/** One edit of the plan, drawn from the source. */
export function randomEdit(plan: Plan, next: Source): { name: string; plan: Plan } {
  const name = pick(next, Object.keys(EDITS))
  return { name, plan: (EDITS[name] as Edit)(plan, pick(next, plan.takes), next) }
}

const frame = (next: Source) => wholeBetween(next, -10, 150)
const absurd = (next: Source) => pick(next, [0, -0.3, 0.7, 1.2, -5000, 1e12, 1e-12])
const keyed = (take: Take, next: Source) => pick(next, take.channels[pick(next, CHANNELS)]).frame
const someChannels = (next: Source) => CHANNELS.filter(() => next() < 0.3)

const withContact = (take: Take, plan: Plan, next: Source, edit: (id: string) => Plan): Plan =>
  take.contacts.length === 0 ? plan : edit(pick(next, take.contacts).id)

const withBox = (plan: Plan, next: Source, edit: (id: string) => Plan): Plan =>
  plan.ground.boxes.length === 0 ? plan : edit(pick(next, plan.ground.boxes).id)
