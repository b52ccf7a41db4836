import { type LimbId, sideOf } from '../../document/contacts'

/** 'left leg', 'right arm' */
export const limbName = (id: LimbId): string =>
  `${sideOf(id) === 'L' ? 'left' : 'right'} ${id.startsWith('leg') ? 'leg' : 'arm'}`
