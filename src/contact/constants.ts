import type { ContactKind } from '../document/contacts'
import type { Grip } from '../document/plan'

/**
 * Static friction for the three words a user chooses from, within published pairs:
 * slippery 0.1 (shoes on ice 0.1), normal 0.5 (wood on wood 0.5, dry skin about 0.5), rough 0.9
 * (shoes on wood 0.9, rubber on dry concrete 1.0). University Physics, Table 6.1; skin: see README.
 */
export const FRICTION: Readonly<Record<Grip, number>> = { slippery: 0.1, normal: 0.5, rough: 0.9 }

/** Stiffness of a whole pad against a kneecap's. Ours: soft parts take less of what they could share. */
export const STIFFNESS: Readonly<Record<ContactKind, number>> = {
  kneecap: 1,
  sole: 1,
  ball: 0.5,
  palm: 0.5,
  fist: 0.5,
  toes: 0.25,
  instep: 0.25,
}

/** What one contact may carry, in body weights. Ours: keeps two palms on opposite walls from freeing everything. */
export const LOAD_LIMIT = 2
