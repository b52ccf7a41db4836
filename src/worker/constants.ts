/** How long the thread works before it looks for a newer request, ms: half a frame of the screen. */
export const SLICE_MS = 8
