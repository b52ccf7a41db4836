export interface Box {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

/**
 * Where something of a size goes so that it stands under its anchor, above it where there is no room below, and
 * never past the edges of the window.
 */
export function placeBeside(
  anchor: Box,
  size: { readonly width: number; readonly height: number },
  window: { readonly width: number; readonly height: number },
): { readonly left: number; readonly top: number } {
  const below = anchor.top + anchor.height + GAP
  const above = anchor.top - GAP - size.height
  const top = below + size.height <= window.height || above < 0 ? below : above
  const within = (at: number, own: number, whole: number) => Math.max(GAP, Math.min(at, whole - own - GAP))
  return {
    left: within(anchor.left, size.width, window.width),
    top: within(top, size.height, window.height),
  }
}

/** Between an anchor and what belongs to it, and to the window's edges, px. */
const GAP = 4
