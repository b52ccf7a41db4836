/**
 * Segment table: de Leva P (1996) Adjustments to Zatsiorsky-Seluyanov's segment inertia parameters,
 * J Biomech 29(9):1223-1230, Table 4. Mass in % of the body's, length in mm of the mean subject,
 * centre in % of the length from the first end named, radii of gyration in % of the length about the
 * sagittal (front to back), transverse (side to side) and longitudinal axis through the centre.
 * The rows are those whose ends are joint centres, so that the segments stack without a gap.
 * Lengths of the head, trunk-thirds and shank rows used here agree with the alternative rows to 0.1 mm.
 */
export interface TableRow {
  readonly mass: number
  readonly length: number
  readonly centre: number
  readonly radii: readonly [number, number, number]
}

export type Part =
  | 'head'
  | 'upperTrunk'
  | 'middleTrunk'
  | 'lowerTrunk'
  | 'upperArm'
  | 'forearm'
  | 'hand'
  | 'thigh'
  | 'shank'
  | 'foot'

/** The mean subjects of the table: stature in mm. */
export const TABLE_STATURE = { male: 1741, female: 1735 } as const

export const DE_LEVA: Record<Part, { ends: string; male: TableRow; female: TableRow }> = {
  head: {
    ends: 'VERT-CERV',
    male: { mass: 6.94, length: 242.9, centre: 50.02, radii: [30.3, 31.5, 26.1] },
    female: { mass: 6.68, length: 243.7, centre: 48.41, radii: [27.1, 29.5, 26.1] },
  },
  upperTrunk: {
    ends: 'CERV-XYPH',
    male: { mass: 15.96, length: 242.1, centre: 50.66, radii: [50.5, 32.0, 46.5] },
    female: { mass: 15.45, length: 228.0, centre: 50.5, radii: [46.6, 31.4, 44.9] },
  },
  middleTrunk: {
    ends: 'XYPH-OMPH',
    male: { mass: 16.33, length: 215.5, centre: 45.02, radii: [48.2, 38.3, 46.8] },
    female: { mass: 14.65, length: 205.3, centre: 45.12, radii: [43.3, 35.4, 41.5] },
  },
  lowerTrunk: {
    ends: 'OMPH-MIDH',
    male: { mass: 11.17, length: 145.7, centre: 61.15, radii: [61.5, 55.1, 58.7] },
    female: { mass: 12.47, length: 181.5, centre: 49.2, radii: [43.3, 40.2, 44.4] },
  },
  upperArm: {
    ends: 'SJC-EJC',
    male: { mass: 2.71, length: 281.7, centre: 57.72, radii: [28.5, 26.9, 15.8] },
    female: { mass: 2.55, length: 275.1, centre: 57.54, radii: [27.8, 26.0, 14.8] },
  },
  forearm: {
    ends: 'EJC-WJC',
    male: { mass: 1.62, length: 268.9, centre: 45.74, radii: [27.6, 26.5, 12.1] },
    female: { mass: 1.38, length: 264.3, centre: 45.59, radii: [26.1, 25.7, 9.4] },
  },
  hand: {
    ends: 'WJC-MET3',
    male: { mass: 0.61, length: 86.2, centre: 79.0, radii: [62.8, 51.3, 40.1] },
    female: { mass: 0.56, length: 78.0, centre: 74.74, radii: [53.1, 45.4, 33.5] },
  },
  thigh: {
    ends: 'HJC-KJC',
    male: { mass: 14.16, length: 422.2, centre: 40.95, radii: [32.9, 32.9, 14.9] },
    female: { mass: 14.78, length: 368.5, centre: 36.12, radii: [36.9, 36.4, 16.2] },
  },
  shank: {
    ends: 'KJC-AJC',
    male: { mass: 4.33, length: 440.3, centre: 43.95, radii: [25.1, 24.6, 10.2] },
    female: { mass: 4.81, length: 438.6, centre: 43.52, radii: [26.7, 26.3, 9.2] },
  },
  foot: {
    ends: 'HEEL-TTIP',
    male: { mass: 1.37, length: 258.1, centre: 44.15, radii: [25.7, 24.5, 12.4] },
    female: { mass: 1.29, length: 228.3, centre: 40.14, radii: [29.9, 27.9, 13.9] },
  },
}

/**
 * Along the trunk line, hip joints' middle to shoulder joints' middle, in mm (same table, row MIDS-MIDH).
 */
export const SHOULDER_HEIGHT_ON_TRUNK = { male: 515.5, female: 497.9 } as const

/**
 * Lengths as fractions of stature: Drillis & Contini (1966), as drawn in Winter (2009) Fig. 4.1.
 */
export const DRILLIS_CONTINI = {
  halfShoulder: 0.1295,
} as const
