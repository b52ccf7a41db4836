/** Small pictures of each kind that is read, made here byte by byte from their formats' definitions. */
const bytes = (hex: string): Uint8Array => Uint8Array.from(Buffer.from(hex.replace(/\s/g, ''), 'hex'))
const padded = (head: Uint8Array): Uint8Array => {
  const whole = new Uint8Array(200)
  whole.set(head)
  return whole
}

/** 300 × 400 each. */
export const PNG = padded(bytes('89504e470d0a1a0a 0000000d 49484452 0000012c 00000190 08 06 00 00 00'))
export const GIF = padded(bytes('474946383961 2c01 9001 80 00 00'))
/** With a comment segment before the frame. */
export const JPEG = padded(
  bytes('ffd8 fffe 0006 61626364 ffc0 0011 08 0190 012c 03 01 22 00 02 11 01 03 11 01'),
)
export const WEBP_LOSSY = padded(
  bytes('52494646 c0000000 57454250 56503820 b4000000 300100 9d012a 2c01 9001'),
)
/** Width − 1 in 14 bits, then height − 1: 299 + (399 << 14). */
export const WEBP_LOSSLESS = padded(bytes('52494646 c0000000 57454250 5650384c b4000000 2f 2bc16300'))
export const WEBP_WIDE = padded(bytes('52494646 c0000000 57454250 56503858 0a000000 00000000 2b0100 8f0100'))

export const PICTURES: readonly Uint8Array[] = [PNG, GIF, JPEG, WEBP_LOSSY, WEBP_LOSSLESS, WEBP_WIDE]
