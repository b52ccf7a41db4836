import { sideOf } from '../document/contacts'
import type { ReachedPose } from '../pose/types'
import type { Opinion } from '../trial/rest'
import { number, SPACE } from './format'

/** What a second opinion on the loads comes to: 'Checked by a physics engine in the front view: within 0.1 %.' */
export function opinionWords(opinions: readonly Opinion[], pose: ReachedPose): OpinionWords {
  const views = opinions.map(({ view }) => view)
  const where = views.length > 1 ? `${views.join(' and ')} views` : `${views[0]} view`
  const worst = Math.max(...opinions.map(({ difference }) => difference))
  return {
    summary: `Loads checked by a physics engine in the ${where}: within ${boundText(worst)}.`,
    views: opinions.map(({ view, places }) => ({
      view,
      rows: places.map(({ ids, split, trial }) => ({
        // By name: places that lie one behind the other have no order of their own.
        pads: ids
          .map((id) => padName(pose, id))
          .sort()
          .join(', '),
        split: shareText(split),
        trial: shareText(trial),
      })),
    })),
  }
}

export interface OpinionWords {
  readonly summary: string
  readonly views: readonly {
    readonly view: Opinion['view']
    readonly rows: readonly { readonly pads: string; readonly split: string; readonly trial: string }[]
  }[]
}

/** Finer than loads are shown, since it is the difference that is looked at. */
const shareText = (share: number): string => `${number(100 * share, 2)}${SPACE}%`

/** A difference rounded up to one figure, so that it is within: 0.0004 → '0.04 %'; at least 0.01 %. */
function boundText(difference: number): string {
  const percent = Math.max(0.01, 100 * difference)
  const step = 10 ** Math.floor(Math.log10(percent) + 1e-9)
  const bound = Math.ceil(percent / step - 1e-9) * step
  return `${number(bound, Math.max(0, -Math.floor(Math.log10(bound) + 1e-9)))}${SPACE}%`
}

/** 'knee L' */
function padName(pose: ReachedPose, id: string): string {
  const pad = pose.pads.find((one) => one.id === id)
  return pad === undefined ? id : `${pad.kind === 'kneecap' ? 'knee' : pad.kind} ${sideOf(pad.part)}`
}
