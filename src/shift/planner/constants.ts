/**
 * Numbers of the shift planner. Lengths over the stature H, times in seconds at a stature of 1.8 m (they go
 * with √H), angles in rad, unless a line says otherwise. Ours where nothing else stands there.
 */

const DEGREE = Math.PI / 180

/**
 * Careful durations, s, for ways as long as in SPANS: what a grown person's half kneel was found to need so that
 * nothing pushes from nowhere. Shorter ways take less, see there.
 */
export const SECONDS = {
  /** Locked at the start. */
  ready: 0.17,
  /** From the first move until the weight rests over what stays: press, lean and sink are one curve. */
  over: 1.2,
  /** The knee peels; then the toes. */
  lift: 0.26,
  /** To the passing breakdown and on to the touch. */
  pass: 0.34,
  reach: 0.38,
  /** Load arrives and comes back between the supports. */
  share: 0.95,
  /** Overshoot and back, then the moving hold. */
  settle: 0.3,
  hold: 0.3,
} as const

/** Ways, over H, that SECONDS stand for: the weight's to over and back, the limb's; and how far the factor goes. */
export const SPANS = { over: 0.06, share: 0.09, limb: 0.45, least: 0.55, most: 1.3 } as const

/** How much quicker a thrown move begins than a careful one. */
export const THROWN = 0.45
/** Shares of the way to `over` after which the press ends, the lean ends and the sink begins. */
export const PRESS_SHARE = 0.26
export const SINK_SHARE = 0.84

/**
 * Each round of checking makes the spans that failed longer, in so many rounds at the most. A push p falls with
 * the square of the time, on top of a part that contacts can give (`gives`, W). A push that keeps more than `helps` of
 * itself in so many rounds (`stuck`) won't fall; a `large` one, W, shows it in one.
 */
export const STRETCH = {
  least: 1.1,
  most: 2.4,
  gives: 0.048,
  spare: 0.004,
  helps: 0.9,
  stuck: 2,
  large: 0.2,
} as const
export const ROUNDS = 10

/** Room that a pose is planned with on the contacts that stay: first the least allowed, then as much as there is. */
export const ROOMS: readonly number[] = [0.0055, 0.0165, 0.025, 0.035, 0.05, 0.07, 0.09]
/** With so much room a pose has enough, over H. */
export const ROOMY = 0.0165
/** What the mover may still carry, held still and all but taken off, before the weight goes on, W. */
export const STILL_CARRIES = 0.006
/** Room that a shown pose has at least. */
export const LEAST_ROOM = 0.005

/** The gate, frame by frame. */
export const GATE = {
  /** Push from nowhere, W. */
  push: 0.02,
  /** Room, over H; negative is outside. */
  room: -0.005,
  /** What the mover's main pad may carry when it starts to move, W. */
  main: 0.02,
  /** What trailing toes or an instep may; so may a main pad that could be let go altogether: pads that are there keep a
   * floor of stiffness, and with a hand planted that alone leaves a few percent on one that nothing presses down. */
  trailing: 0.06,
  /** Hip line that stops the planner. */
  hipLine: 20 * DEGREE,
  /** How much deeper parts may run into each other than at the start, over H. */
  flesh: 0.012,
  /** How far a free limb may miss what it is asked, over H. */
  miss: 0.03,
} as const

/** A coarse look takes frames of so many seconds at √s = 1: the shortest span has three of them. */
export const COARSE = 0.08

/** Balance: steps, near enough (over H), longest step (over H and rad), probe of a slope. */
export const BALANCE = {
  steps: 24,
  near: 4e-4,
  longest: { place: 0.09, angle: 0.2 },
  probe: 2e-4,
  /** Slopes hold while a step brings more than this of what they promise. */
  came: 0.4,
  /** A step that takes less than this off the miss has hardly helped; after so many it stops. */
  gain: 0.08,
  patience: 4,
  /** A step that led no nearer is tried again this much shorter. */
  shorter: 0.4,
} as const

/** How far the trunk goes from where it started. Sideways 35°, forward 60°, back 20° (ranges of the trunk, memory). */
export const TRUNK = {
  chestList: 35 * DEGREE,
  chestForward: 60 * DEGREE,
  chestBack: 20 * DEGREE,
  pelvisList: 18 * DEGREE,
  pelvisForward: 55 * DEGREE,
  pelvisBack: 20 * DEGREE,
} as const

/** The shoulders oppose the hip line by this much of it. */
export const OPPOSE = 1.4
/** The head keeps this much of its level against the trunk's lean. */
export const HEAD_LEVEL = 0.55
/** The free hip hikes as the leg lifts, and at the passing breakdown. */
export const HIKE = { lift: 3 * DEGREE, pass: 5 * DEGREE } as const
/** The pelvis drops onto the bearing side by this much. */
export const SINK_DROP = 0.008
/** The body gives when the load arrives. */
export const GIVE = 0.005
/** A strike or a set-down: the limb goes first, the chest follows, and after contact the pelvis drops. */
export const STRIKE = {
  /** While the hand is raised, how far the trunk is on its way, and how much higher the pelvis, over H. */
  along: 0.2,
  rise: 0.012,
  /** How high the hand is raised, in clearances. */
  raise: 2.4,
  /** Share of a drop that must really come. */
  came: 0.7,
  /** What the drop after a strike takes, and the second half of the hand's way down, s. */
  seconds: 0.25,
  falls: 0.17,
} as const

/** Clearance of a knee that shuffles, and of a foot that steps. */
export const CLEARANCE = { knee: 0.02, foot: 0.045, hand: 0.05 } as const

/** The share comes this far past its end and back: about one and a half visible swings. */
export const OVERSHOOT = { first: 0.07, second: -0.025 } as const
/** The moving hold drifts by this much. */
export const DRIFT = 0.0015

/** Options closer than this count as one: over H and rad. */
export const SAME = { place: 0.03, angle: 8 * DEGREE } as const
/**
 * Steps that are spent at the most: on the question, on one way of it while there is none yet and once there is one,
 * and on all remedies together. A step is a pose or a frame, some tenths of a millisecond. An answer that comes takes
 * 500 to 3,000, one way of it up to 4,200 in the largest bodies.
 */
export const EFFORT = { search: 6000, way: 5000, more: 2000, remedies: 3000 } as const

/** A chest that leans further than this bends instead of shifting, whatever else leads. */
export const BENDS = 45 * DEGREE

/** Options shown at the most. */
export const SHOWN = 4

/** A hanging hand stands off to its side by this share of the way its shoulder has gone. */
export const HANG_OFF = 0.45

/** Moves longer than this, over H, keep the weight off the edge ahead of them by this share of the move. */
export const COUNTER = { least: 0.15, share: 0.22 } as const

/** The press: the mover's load rises by this much at the most, W, careful and thrown; so many rounds are spent on it. */
export const PRESS = { careful: 0.15, thrown: 0.25, rounds: 4 } as const
/** And clear of a trunk that leans, by this share of its length for a radian. */
export const HANG_LEANT = 0.2

/** Places for a helping hand that are tried at the most. */
export const HAND_PLACES = 4
/** A free arm that hangs into its own thigh or belly goes out by so much more than it is in, in so many tries. */
export const HANG_CLEAR = { more: 1.3, tries: 2 } as const
