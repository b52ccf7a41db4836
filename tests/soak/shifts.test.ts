import { inShort } from './in-short'
import { shifts } from './shifts'

inShort(shifts)
