/*
 * Acting a body's motion out: the person is smaller or larger than the character, and what gravity times takes
 * her √(her size / its size) as long. `times` is always the character's stature over the person's.
 */

/** Speed at which footage of the person plays to have the character's timing; 0.5 is half speed. */
export const referenceSpeed = (times: number): number => 1 / Math.sqrt(times)

/**
 * Frames a second to shoot at, so that footage played at `fps` has the character's timing: the rule of
 * miniature photography, 24 √m for a scale of 1 : m.
 */
export const shootingFps = (fps: number, times: number): number => fps * Math.sqrt(times)

/** The beats of a shift that are tapped on footage, in order. */
export const BEATS = ['starts', 'weight over', 'leaves', 'touches', 'loaded', 'still'] as const
export type BeatName = (typeof BEATS)[number]

export interface Beat {
  readonly name: BeatName
  /** On the footage as it was filmed, s. */
  readonly seconds: number
}

/**
 * The character's frames for beats tapped on footage of a person: times from the first beat × √times, from
 * `start` on, to the nearest frame; beats that would meet come one frame after another.
 * @param fps frames a second of the character's take
 * @param start frame of the take at which the first beat falls
 */
export function beatFrames(
  beats: readonly Beat[],
  times: number,
  fps: number,
  start = 0,
): { readonly name: BeatName; readonly frame: number }[] {
  const ordered = [...beats].sort((a, b) => a.seconds - b.seconds)
  const zero = ordered[0]?.seconds ?? 0
  let last = Number.NEGATIVE_INFINITY
  return ordered.map(({ name, seconds }) => {
    const frame = Math.max(last + 1, start + Math.round((seconds - zero) * Math.sqrt(times) * fps))
    last = frame
    return { name, frame }
  })
}
