import type { Ink } from './list'

/** A colour, as CSS writes it, for every name. */
export type Palette = Readonly<Record<Ink, string>>

/** Ink and rust on paper. Text inks reach 4.5 : 1 on paper and on both tones, `weight` 4.5 : 1 on paper. */
const paper: Palette = {
  paper: '#f7f3ea',
  ink: '#26231f',
  inkSoft: '#655d50',
  hairline: '#cfc5b2',
  toneL: '#f1eadb',
  toneR: '#d9ccb2',
  block: '#ebe4d5',
  shade: '#e7dfcf',
  ghost: '#8f8674',
  weight: '#a4502c',
}

/** The same drawing on slate. */
const slate: Palette = {
  paper: '#1f2428',
  ink: '#eee8dc',
  inkSoft: '#b3ab9c',
  hairline: '#434a4f',
  toneL: '#566067',
  toneR: '#363e44',
  block: '#2b3237',
  shade: '#2d3439',
  ghost: '#828a8f',
  weight: '#e88a5c',
}

/** For printers without colour: rust comes out as a dark grey between the ink and the darker tone. */
const print: Palette = {
  paper: '#ffffff',
  ink: '#000000',
  inkSoft: '#4a4a4a',
  hairline: '#b9b9b9',
  toneL: '#f6f6f6',
  toneR: '#d4d4d4',
  block: '#ededed',
  shade: '#ececec',
  ghost: '#8a8a8a',
  weight: '#8a3f1f',
}

/** The colours a user's system forces, by CSS system colour keywords. */
const forced: Palette = {
  paper: 'Canvas',
  ink: 'CanvasText',
  inkSoft: 'CanvasText',
  hairline: 'GrayText',
  toneL: 'Canvas',
  toneR: 'Canvas',
  block: 'Canvas',
  shade: 'Canvas',
  ghost: 'GrayText',
  weight: 'Highlight',
}

export const PALETTES = { paper, slate, print, forced } as const

export type PaletteName = keyof typeof PALETTES
