import {
  PROBLEM_DEFAULTS,
  PROBLEM_LIMITS,
  type Problem,
  type ProblemContact,
  type ProblemLoad,
} from '../document/problem'
import { GRAVITY } from '../space/units'
import { distance, dot, norm, sub, type Vec3 } from '../space/vec'
import { type Fault, Faults, type Place, shown } from './faults'
import { choice, type Form, id, line, list, number, object, vector } from './form'
import { readForm } from './read-form'
import { parseText } from './text'
import { isId } from './text-rules'

/**
 * The plain problem in a file (see `Problem`), or every reason why it can't be read. A file must have
 * `format`, `version`, `mass`, `com` and `contacts`, each with `id`, `vertices`, `normal` and
 * `friction`; what else it leaves out is filled in. Two contacts on one spot, and contacts on a line, are
 * problems like any other.
 * @param text the file's text, or its bytes (UTF-8)
 */
export function readProblem(text: string | Uint8Array): ProblemRead {
  const parsed = parseText(text)
  return parsed.ok ? checkProblem(parsed.value) : { ok: false, faults: parsed.faults.list() }
}

/** The same for a value that is parsed already; it is left alone. */
export function checkProblem(value: unknown): ProblemRead {
  const faults = new Faults()
  if (!isOurs(value, faults)) return { ok: false, faults: faults.list() }
  const problem = readForm(PROBLEM_FORM, filledIn(value), faults)
  if (problem === undefined) return { ok: false, faults: faults.list() }
  checkIds(problem.contacts, faults)
  for (const [i, contact] of problem.contacts.entries()) checkContact(contact, i, problem.size, faults)
  return faults.count === 0 ? { ok: true, problem } : { ok: false, faults: faults.list() }
}

export type ProblemRead =
  | { readonly ok: true; readonly problem: Problem }
  | { readonly ok: false; readonly faults: readonly Fault[] }

const FORMAT = 'weighbridge-problem'
const VERSION = 1
const { place, force } = PROBLEM_LIMITS

const CONTACT: Form<ProblemContact> = object({
  id,
  limb: id,
  vertices: list(vector(place, 'm'), PROBLEM_LIMITS.vertices, 'vertices'),
  normal: vector(PROBLEM_LIMITS.normal, ''),
  friction: number(PROBLEM_LIMITS.friction, ''),
  stiffness: number(PROBLEM_LIMITS.stiffness, ''),
  limit: number(PROBLEM_LIMITS.limit, 'body weights'),
})

const LOAD: Form<ProblemLoad> = object({ force: vector(force, 'N'), at: vector(place, 'm') })

const PROBLEM_FORM: Form<Problem> = object({
  format: choice([FORMAT]),
  version: choice([VERSION]),
  title: line(PROBLEM_LIMITS.title),
  gravity: number(PROBLEM_LIMITS.gravity, 'm/s²'),
  mass: number(PROBLEM_LIMITS.mass, 'kg'),
  com: vector(place, 'm'),
  size: number(PROBLEM_LIMITS.size, 'm'),
  force: vector(force, 'N'),
  moment: vector(PROBLEM_LIMITS.moment, 'N·m'),
  loads: list(LOAD, PROBLEM_LIMITS.loads, 'loads'),
  contacts: list(CONTACT, PROBLEM_LIMITS.contacts, 'contacts'),
})

type Fields = Readonly<Record<string, unknown>>

const isObject = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

const own = (value: Fields, name: string): unknown => (Object.hasOwn(value, name) ? value[name] : undefined)

function isOurs(value: unknown, faults: Faults): value is Fields {
  const format = isObject(value) ? own(value, 'format') : undefined
  if (!isObject(value) || format !== FORMAT) {
    const found = format === undefined ? 'it names no format' : `its format is ${shown(format)}`
    faults.add('not-ours', undefined, found, `choose a problem file, whose format is "${FORMAT}"`)
    return false
  }
  const version = own(value, 'version')
  if (version === VERSION) return true
  const at = { above: undefined, name: 'version' }
  if (typeof version === 'number' && version > VERSION) {
    const problem = `made by a newer Weighbridge (version ${version} of the format; this one reads ${VERSION})`
    faults.add('newer-version', at, problem, 'open it with the newer one')
  } else {
    const found = version === undefined ? 'the version is missing' : `the version is ${shown(version)}`
    faults.add('bad-version', at, found, `write ${VERSION}`)
  }
  return false
}

/** A copy with what a file may leave out. What it does say is left for the form to judge. */
function filledIn(given: Fields): Fields {
  const contacts = own(given, 'contacts')
  const whole = Array.isArray(contacts) ? contacts.map(filledInContact) : contacts
  return {
    title: '',
    gravity: GRAVITY,
    size: sizeOf(own(given, 'com'), whole),
    force: [0, 0, 0],
    moment: [0, 0, 0],
    loads: [],
    ...given,
    ...(whole === undefined ? {} : { contacts: whole }),
  }
}

function filledInContact(given: unknown): unknown {
  if (!isObject(given)) return given
  const name = own(given, 'id')
  const limb = typeof name === 'string' && isId(name) ? name : 'limb'
  return { limb, ...PROBLEM_DEFAULTS, ...given }
}

/** Twice the way from the centre to the furthest vertex, as far as they can be read yet. */
function sizeOf(com: unknown, contacts: unknown): number {
  if (!isPlace(com) || !Array.isArray(contacts)) return 1
  let far = 0
  for (const contact of contacts) {
    const vertices: unknown = isObject(contact) ? contact.vertices : undefined
    if (Array.isArray(vertices))
      for (const v of vertices) if (isPlace(v)) far = Math.max(far, distance(v, com))
  }
  const [least, most] = PROBLEM_LIMITS.size
  return far > 0 ? Math.min(most, Math.max(least, 2 * far)) : 1
}

const isPlace = (value: unknown): value is Vec3 =>
  Array.isArray(value) &&
  value.length === 3 &&
  value.every((x) => typeof x === 'number' && Number.isFinite(x))

function checkIds(contacts: readonly ProblemContact[], faults: Faults): void {
  const seen = new Set<string>()
  contacts.forEach((contact, i) => {
    if (seen.has(contact.id)) {
      const at = { above: placeOf(i), name: 'id' }
      faults.add('duplicate-id', at, `another contact is called ${shown(contact.id)}`, 'give each its own id')
    }
    seen.add(contact.id)
  })
}

function checkContact({ normal, vertices }: ProblemContact, i: number, size: number, faults: Faults): void {
  const long = norm(normal)
  if (long < PROBLEM_LIMITS.shortestNormal) {
    const at = { above: placeOf(i), name: 'normal' }
    faults.add(
      'out-of-range',
      at,
      'it has no length, so it names no direction',
      'write the way the contact pushes',
    )
    return
  }
  const [first] = vertices
  vertices.forEach((vertex, k) => {
    const off = Math.abs(dot(sub(vertex, first as Vec3), normal)) / long
    if (off <= PROBLEM_LIMITS.offPlane * size) return
    const at = { above: { above: placeOf(i), name: 'vertices' }, name: k }
    const problem = `it is ${off.toPrecision(3)} m off the plane of the contact's first vertex and normal`
    faults.add(
      'bad-outline',
      at,
      problem,
      'put all vertices of a contact on one plane, or make two contacts of it',
    )
  })
}

const placeOf = (i: number): Place => ({ above: { above: undefined, name: 'contacts' }, name: i })
