import type { Range } from '../document/limits'

/**
 * The form of a file: which fields there are, in which order they are written, and what each may be. One
 * form drives the reader and the writer, so that neither knows a field the other does not.
 *
 * The type parameter is what the reader gives back; it exists for the type checker alone.
 */
export type Form<T> = FormNode & { readonly reads?: T }

export type FormNode =
  | { readonly kind: 'number'; readonly range: Range; readonly unit: string; readonly whole: boolean }
  | { readonly kind: 'vector'; readonly range: Range; readonly unit: string }
  | { readonly kind: 'text'; readonly longest: number; readonly lines: boolean }
  | { readonly kind: 'id' }
  | { readonly kind: 'choice'; readonly of: readonly (string | number)[] }
  | { readonly kind: 'boolean' }
  | { readonly kind: 'nullable'; readonly of: FormNode }
  | ListNode
  | ObjectNode

export interface ListNode {
  readonly kind: 'list'
  readonly of: FormNode
  readonly least: number
  readonly most: number
  readonly what: string
}

export interface ObjectNode {
  readonly kind: 'object'
  readonly fields: ReadonlyMap<string, FormNode>
  /** Written on one line. */
  readonly inline: boolean
  /** Any of the fields may be missing. */
  readonly partial: boolean
}

export const number = (range: Range, unit: string): Form<number> => ({
  kind: 'number',
  range,
  unit,
  whole: false,
})

export const whole = (range: Range, unit: string): Form<number> => ({
  kind: 'number',
  range,
  unit,
  whole: true,
})

/** Three numbers, each within the range. */
export const vector = (range: Range, unit: string): Form<readonly [number, number, number]> => ({
  kind: 'vector',
  range,
  unit,
})

/** Text on one line, at most `longest` characters (code points). */
export const line = (longest: number): Form<string> => ({ kind: 'text', longest, lines: false })

/** Text that may have line breaks. */
export const lines = (longest: number): Form<string> => ({ kind: 'text', longest, lines: true })

export const id: Form<string> = { kind: 'id' }

export const choice = <const T extends string | number>(of: readonly T[]): Form<T> => ({ kind: 'choice', of })

export const boolean: Form<boolean> = { kind: 'boolean' }

/** @param what the things in the list, as a message names them */
export const list = <T>(of: Form<T>, [least, most]: Range, what: string): Form<readonly T[]> => ({
  kind: 'list',
  of,
  least,
  most,
  what,
})

/** An object with exactly these fields, each on a line of its own or, `inline`, all on one. */
export const object = <T>(
  fields: { readonly [K in keyof T]-?: Form<T[K]> },
  layout: 'lines' | 'inline' = 'lines',
): Form<T> => ({
  kind: 'object',
  fields: new Map(Object.entries<FormNode>(fields)),
  inline: layout === 'inline',
  partial: false,
})

/** The same kind of form for each of some names. */
export const record = <K extends string, T>(
  names: readonly K[],
  of: (name: K) => Form<T>,
  layout: 'lines' | 'inline' = 'lines',
): Form<Readonly<Record<K, T>>> => ({
  kind: 'object',
  fields: new Map(names.map((name) => [name, of(name)])),
  inline: layout === 'inline',
  partial: false,
})

/** The same kind of form for any of some names, none of them needed; on one line. */
export const some = <K extends string, T>(
  names: readonly K[],
  of: Form<T>,
): Form<Readonly<Partial<Record<K, T>>>> => ({
  kind: 'object',
  fields: new Map(names.map((name) => [name, of])),
  inline: true,
  partial: true,
})

/** What the form says, or null. */
export const nullable = <T>(of: Form<T>): Form<T | null> => ({ kind: 'nullable', of })
