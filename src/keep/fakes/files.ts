import type { FileKind, FilePlace, Files, Opened } from '../files'

/** Files in memory: opens what is put in, remembers what is saved. */
export function memoryFiles(): Files & {
  /** What the next opening gives. */
  next: Opened
  readonly saved: Map<string, string | Blob>
} {
  const saved = new Map<string, string | Blob>()
  const placeNamed = (name: string): FilePlace => ({
    name,
    write: async (content) => {
      saved.set(name, content)
    },
  })
  return {
    next: { kind: 'cancelled' },
    saved,
    async open(_kind: FileKind) {
      return this.next
    },
    async save(file, _kind, place = placeNamed(file.name)) {
      await place.write(file.content)
      return { kind: 'saved', place }
    },
  }
}
