import type { CopyBoard } from '../clipboard'

/** A clipboard in memory. */
export function memoryCopyBoard(): CopyBoard & { text: string | undefined; picture: Blob | undefined } {
  return {
    text: undefined,
    picture: undefined,
    async copyText(text) {
      this.text = text
      return { kind: 'copied' }
    },
    async copyPicture(png) {
      this.picture = await png
      return { kind: 'copied' }
    },
  }
}
