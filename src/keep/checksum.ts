/**
 * CRC-32 of a text's UTF-8 bytes as eight hexadecimal digits (the polynomial of ISO 3309 and ITU-T V.42,
 * reflected: 0xEDB88320). It finds damage, not forgery.
 */
export function checksum(text: string): string {
  let crc = 0xffffffff
  for (const byte of new TextEncoder().encode(text))
    crc = (crc >>> 8) ^ (TABLE[(crc ^ byte) & 0xff] as number)
  return ((crc ^ 0xffffffff) >>> 0).toString(16).padStart(8, '0')
}

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1
  return crc
})
