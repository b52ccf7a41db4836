/*
 * Where each rule of the reading fires. Lengths hold for a stature of 1.8 m and go with H / 1.8 m; times and
 * speeds go with √(H / 1.8 m). All thresholds are ours, from what shows in a drawing at 24 frames a second;
 * reasons stand beside them.
 */

const degrees = (angle: number): number => (angle * Math.PI) / 180

/** m: the stature that lengths and times hold for. */
export const NOTE_STATURE = 1.8

/** Notes shown at a time: as many as one goes home with. */
export const SHOWN = 5

export const SLIDES = {
  /** Share of the weight from which a contact counts as loaded: below it a brush doesn't tell. */
  loaded: 0.1,
  /** m over the planted span: about a kneecap's breadth, seen against any floor. */
  moved: 0.02,
  /** m/s: a centimetre a frame at 24. */
  speed: 0.24,
  /** m: smaller than a line's breadth, never a slide. */
  nothing: 0.003,
  /** m and s: flesh and feet spread that far on an impact. */
  spread: 0.06,
  spreadTime: 0.25,
} as const

export const LIFTS_EARLY = {
  /** W that must still be carried: less looks like a foot peeling off. */
  least: 0.15,
  /** A leg that pushes off: its load rises by this much on the last drawn frame … */
  rising: 0.05,
  /** … and the ground pushes up with more than the weight by this factor. */
  pushOff: 1.05,
} as const

/** A contact's move: what weight and pelvis must do before it. */
export const SHIFT = {
  /** m: a smaller move of the weight isn't seen as one. */
  silent: 0.02,
  /** Share of the needed way that the weight must have gone at the lift: half still reads as unfinished, less as none. */
  weight: 0.5,
  /** Share of it below which it is said to have gone none of it. */
  seen: 0.08,
  /** Share of it that the pelvis must have gone where the chest leans. */
  pelvis: 0.3,
  /** rad: a lean of the chest that is seen. */
  chest: degrees(10),
  /** s before a lift in which its shift may have begun: careful leans take .7 s, a press .2 s, with room. */
  before: 1.5,
  /** s that a remedy gives a shift: the middle of a careful lean's .5 to .7. */
  lean: 0.6,
  /** W: freed by the motion, as when thrown: no travel is owed. */
  freed: 0.02,
} as const

export const PUSHED = {
  /** m/s that nothing explains … */
  velocity: 0.15,
  /** … gathered within so many seconds: as long as an eye adds up. */
  within: 0.4,
  /** W, on two drawn frames one after the other. */
  size: 0.3,
  /** A push whose force is less than this share of it is a balance that fails, which has a note of its own. */
  forced: 0.35,
} as const

export const HANGS = {
  /** Room over H below which the body is off its supports: more than the drawn region's chord is off. */
  room: 0.01,
  /** s: shorter is a stumble that is caught. */
  time: 0.25,
} as const

export const STEP = {
  /** W that a foot newly takes. */
  takes: 0.2,
  /** Pelvis travel over H, and list and turn together, rad: below both the hips stand still. */
  pelvis: 0.03,
  angle: degrees(4),
  /** s before the touch and after the load has come in which the hips may answer. */
  before: 0.5,
  after: 0.25,
} as const

export const HIP_DROP = {
  /** W on one knee or foot. */
  bears: 0.8,
  /** rad: a hip line within this of level looks level. */
  level: degrees(2),
  /** s: a shorter stand on one leg doesn't let the hip drop. */
  time: 0.25,
} as const

export const HEAD = {
  /** rad of the chest within so many seconds: a move the head must answer. */
  chest: degrees(15),
  within: 0.33,
  /** rad: less in the world on every axis is a head on a gimbal. */
  free: degrees(2),
  /** rad: less against the chest is a head bolted on. */
  bolted: degrees(1),
} as const

export const HAND = {
  /** rad of the forearm within so many seconds. */
  forearm: degrees(12),
  within: 0.33,
  /** rad of the hand against it: less is a mitten on a stick. */
  hand: degrees(3),
} as const

/** Which motion of a part counts as one. */
export const MOVES = {
  /** Share of its own peak speed under which a part is still. */
  still: 0.02,
  /** Share of it at which a move has begun. */
  begun: 0.1,
  /** m/s and rad/s of a peak under which a part doesn't move at all: a hand's breadth, 10° a second. */
  place: 0.05,
  angle: degrees(10),
  /** s: shorter moves have no beginning of their own. */
  time: 0.33,
  /** Parts that begin or end together. */
  together: 4,
  /** Drawn frames that count as together at a start, and at a stop. */
  start: 1,
  stop: 2,
  /** s of stillness after the stop that are seen. */
  rest: 0.33,
  /** Share of the peak speed two drawn frames before the stop: from there it is a dead stop. */
  dead: 0.2,
} as const

export const EVEN = {
  /** Peak over mean speed: 1 is even, a fully eased move has 1.9. */
  ratio: 1.3,
  /** m: a shorter way has no pace to speak of. */
  way: 0.04,
} as const

export const LANDS = {
  /** m/s at the touch: slower is set down. */
  speed: 0.35,
  /** Going on of hips or chest over H, within so many seconds. */
  give: 0.01,
  within: 0.25,
  /** s before the touch over which the landing's speed is drawn. */
  approach: 0.09,
} as const

export const SMALL = {
  /** Share of its size that a body must read as. */
  reads: 0.5,
} as const

export const POPS = {
  /** rad: bent as much as this, then straighter than that, within so many seconds. */
  bent: degrees(25),
  straight: degrees(12),
  within: 0.09,
} as const

/** Beyond its length, over it: how far a limb may be asked to reach in each style. */
export const REACH = { grounded: 0.02, pushed: 0.08, graphic: 0.25 } as const

/** Stepped blocking: something moves on at most this share of the drawn frames, each time for one of them. */
export const STEPPED = { moving: 0.34, run: 1.2 } as const
