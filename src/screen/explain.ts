import type { Attachment } from 'svelte/attachments'

/**
 * What a control is for, as the strip says it while the control is pointed at or has the focus, and as a screen
 * reader describes it: `<button {@attach explain('…')}>`.
 */
export const explain =
  (text: string | undefined): Attachment<HTMLElement> =>
  (element) => {
    if (text === undefined) return undefined
    element.dataset.hint = text
    element.setAttribute('aria-description', text)
    return () => {
      delete element.dataset.hint
      element.removeAttribute('aria-description')
    }
  }
