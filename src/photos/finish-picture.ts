import { asJpeg, lookAtPicture, type Picture, type PictureReading, remakePicture } from './read-picture.ts'

/** Four times the tile of a finish: sharp on every screen, and small enough that six of them load at once. */
const WIDTH = 288
const HEIGHT = 176
const QUALITY = 75
export const MOST_BYTES = 8_000_000

/** Reads the uploaded photo of a finish; `type` is the one it was sent as, '' where none was said. It is cropped to its middle. */
export async function readFinishPicture(bytes: Uint8Array, type: string): Promise<PictureReading<Picture>> {
  const looked = await lookAtPicture(bytes, type, MOST_BYTES)
  if (!looked.ok) return looked
  return remakePicture(bytes, upright => asJpeg(upright.resize(WIDTH, HEIGHT, { fit: 'cover' }), QUALITY))
}
