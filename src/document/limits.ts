/**
 * How much a file may hold and how far its numbers may go. They are bounds of plausibility that keep a
 * damaged or hostile file from filling the memory, never advice; the body's own are in BODY_LIMITS.
 * Pairs are [least, most], both allowed.
 */
export const LIMITS = {
  /** Size of a file, bytes; looked at before anything is parsed. */
  fileBytes: 20_000_000,
  /** Arrays and objects in a file; a take of 5,000 whole key poses has about 200,000. */
  fileParts: 600_000,
  /** Numbers, texts and the like in a file; that take has about a million. */
  fileValues: 2_000_000,
  /** Fields of one object; the channels of a take are 38. */
  fileFields: 100,
  /** Arrays and objects inside one another; a plan goes 6 deep. */
  fileDepth: 32,

  /** Number of frames of a take: 20,000 is almost 14 minutes at 24 a second. */
  frames: [1, 20_000],
  /** The number that frame 0 carries on the sheet; shots have pre-roll, so it may be negative. */
  firstFrame: [-1_000_000, 1_000_000],
  /** Frames a second. */
  rate: [1, 240],
  /** Numerator and denominator of the rate: 240,000/1,001 fits. */
  rateNumerator: [1, 240_240],
  rateDenominator: [1, 1_001],

  takes: 50,
  boxes: 50,
  keysPerChannel: 5_000,
  contacts: 2_000,
  loads: 50,
  phases: 500,
  notes: 2_000,
  arcs: 500,
  accents: 2_000,
  setAside: 500,

  /** Characters. */
  title: 200,
  name: 100,
  unit: 20,
  note: 2_000,

  /** Any place in the world and any offset from a part, m. */
  place: [-1_000, 1_000],
  /** Any angle, rad; about 16 whole turns. */
  angle: [-100, 100],
  /** An edge of a box, m. */
  boxSize: [0.001, 1_000],
  /** m/s²; from less than a small moon's to ten times the earth's. */
  gravity: [0.1, 100],
  /** Scene units in one metre; 0.001 is a scene in kilometres. */
  unitsPerMetre: [0.0001, 1_000_000],
  /** Mass of one carried load, kg. */
  loadMass: [0, 200_000],
  /** A pad's stiffness; a kneecap of the default table has 1. */
  stiffness: [0.001, 100],
  /** Focal length of the camera, mm on a frame 36 mm wide: 132° across the picture to 7°. */
  lens: [8, 300],
  /** Least way from the camera to its aim, m: it must have a direction. */
  aimAway: 1e-6,
  /** How far past physics: twice at most. */
  push: [1, 2],
  /** From careful to thrown. */
  pace: [0, 1],
  /** Frames that a part leads (< 0) or follows (> 0): half a second at 24. */
  lag: [-12, 12],
  /** How far an arc bows, m: twice the tallest body's stature. */
  bow: [-60, 60],
  /** Share of a span that a key eases over. */
  ease: [0, 1],
  /** Length of a contact's normal: 1, give or take what rounding leaves. */
  normal: [0.999, 1.001],
} as const

export type Range = readonly [least: number, most: number]
