import sharp, { type Sharp } from 'sharp'
import { asJpeg, type Looked, type Picture, type PictureReading, remakePicture } from './read-picture.ts'

/** The longer side of a photo of beds, and of what stands for it in a row of them, in pixels. */
const LONGER = 1280
const SMALL = 320
const QUALITY = 75
/** What phones make of 24 million pixels, and a little more. */
export const MOST_BYTES = 12_000_000

/** A photo of beds in both sizes. */
export interface GardenPicture {
  picture: Picture
  small: Picture
}

/**
 * Makes an uploaded photo of beds smaller; one that is small already stays so.
 * @throws {TooManyPictures} when too many wait already
 */
export function makeGardenPicture(bytes: Uint8Array): Promise<PictureReading<GardenPicture>> {
  return remakePicture(bytes, async upright => {
    const picture = await asJpeg(within(upright, LONGER), QUALITY)
    return { picture, small: await asJpeg(within(sharp(picture.jpeg), SMALL), QUALITY) }
  })
}

function within(picture: Sharp, side: number): Sharp {
  return picture.resize(side, side, { fit: 'inside', withoutEnlargement: true })
}

// Milliseconds for a million pixels, as one processor took them with sharp 0.35 in November 2026.
const MILLISECONDS = { jpeg: 20, png: 30, webp: 80 }
const START = 20

/** How much work it is to make a photo smaller, in units of limits/budget.ts. */
export function unitsOfPicture({ kind, pixels }: Looked): number {
  return START + MILLISECONDS[kind] * (pixels / 1e6)
}
