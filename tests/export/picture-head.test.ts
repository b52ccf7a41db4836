import { deflateSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { PICTURE_LIMITS, pictureHead } from '../../src/export/picture-head'
import { GIF, JPEG, PNG, WEBP_LOSSLESS, WEBP_LOSSY, WEBP_WIDE } from '../soak/pictures'

describe('a picture’s head', () => {
  it.each([
    ['PNG', PNG, 'png'],
    ['GIF', GIF, 'gif'],
    ['JPEG', JPEG, 'jpeg'],
    ['WebP, lossy', WEBP_LOSSY, 'webp'],
    ['WebP, lossless', WEBP_LOSSLESS, 'webp'],
    ['WebP, extended', WEBP_WIDE, 'webp'],
  ])('of a %s says 300 × 400', (_, bytes, kind) => {
    expect(pictureHead(bytes)).toEqual({ ok: true, kind, width: 300, height: 400 })
    // Also where it lies inside a larger buffer.
    const larger = new Uint8Array(bytes.length + 7)
    larger.set(bytes, 7)
    expect(pictureHead(larger.subarray(7))).toEqual({ ok: true, kind, width: 300, height: 400 })
  })

  it('refuses a small file that would fill the memory', () => {
    const bomb = PNG.slice()
    new DataView(bomb.buffer).setUint32(16, 16_000)
    new DataView(bomb.buffer).setUint32(20, 16_000)
    expect(pictureHead(bomb)).toMatchObject({ ok: false, code: 'too-many-pixels' })
    new DataView(bomb.buffer).setUint32(20, 0xffffffff)
    expect(pictureHead(bomb)).toMatchObject({ ok: false, code: 'too-many-pixels' })
  })

  it('refuses what is too big, empty, broken off or no picture', () => {
    expect(pictureHead(new Uint8Array(PICTURE_LIMITS.bytes + 1))).toMatchObject({ code: 'too-big' })
    expect(pictureHead(new Uint8Array())).toMatchObject({ code: 'not-a-picture' })
    expect(pictureHead(new TextEncoder().encode('<svg xmlns="…"/>'))).toMatchObject({ code: 'not-a-picture' })
    expect(pictureHead(deflateSync('noise'))).toMatchObject({ code: 'not-a-picture' })
    for (const [whole, least] of [
      [PNG, 24],
      [GIF, 10],
      [JPEG, 19],
      [WEBP_LOSSY, 30],
    ] as const)
      for (let length = 12; length < least; length++)
        expect(pictureHead(whole.slice(0, length)), `${length} bytes`).toMatchObject({ code: 'broken' })
    const empty = PNG.slice()
    new DataView(empty.buffer).setUint32(16, 0)
    expect(pictureHead(empty)).toMatchObject({ code: 'broken' })
  })

  it('goes through a JPEG’s segments to its end and no further', () => {
    const endless = new Uint8Array(100_000).fill(0xff)
    endless.set([0xff, 0xd8])
    expect(pictureHead(endless)).toMatchObject({ code: 'broken' })
    const standing = JPEG.slice()
    standing.set([0xff, 0xfe, 0, 0], 2)
    expect(pictureHead(standing)).toMatchObject({ code: 'broken' })
  })
})
