import { hostile } from './hostile'
import { loaders } from './loaders'
import { shifts } from './shifts'
import type { Soak } from './soak'
import { trials } from './trials'
import { weighings } from './weighings'

export const SOAKS: readonly Soak[] = [hostile, loaders, weighings, trials, shifts]
