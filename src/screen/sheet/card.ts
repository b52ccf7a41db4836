import type { LimbId } from '../../document/contacts'

/** What a card of the sheet is about. */
export type CardSubject =
  /** Whatever stands behind the picked cell. */
  | { readonly kind: 'cell' }
  /** How the picked cell's figure is worked out. */
  | { readonly kind: 'how' }
  /** The picked frame. */
  | { readonly kind: 'frame' }
  | { readonly kind: 'note' }
  | { readonly kind: 'phases' }
  /** The contacts of a limb, or of all. */
  | { readonly kind: 'contacts'; readonly limb: LimbId | null }
  /** The whole sheet. */
  | { readonly kind: 'timing' }
  | { readonly kind: 'columns' }
