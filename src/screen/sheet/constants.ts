/** Height of a row, px: with a mouse as many frames as can be read at once, with a finger what it can hit. */
export const ROW = { fine: 20, coarse: 36 } as const
/** Rows made ready above and below those that are seen, so that a quick scroll shows no gap. */
export const SPARE_ROWS = 6
/** px of columns made ready at the left and the right, for the same reason. */
export const SPARE_WIDTH = 160
/** Width of one figure and of a cell's margins at the sheet's type, px; the narrowest and the widest column. */
export const CELL = { figure: 6.6, margins: 13, least: 40, most: 220 } as const
/** Widths that do not follow from text, px. */
export const WIDTH = { frame: 48, mark: 44, phase: 62, load: 70, note: 260 } as const
