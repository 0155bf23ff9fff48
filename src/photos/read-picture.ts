import sharp, { type Sharp } from 'sharp'
import type { Key } from '../language/catalogue.ts'
import { oneAtATime } from './one-at-a-time.ts'

const MOST_PIXELS = 50_000_000
/** Of a picture as it is unpacked: one that is interlaced is held whole. */
const MOST_UNPACKED = 160_000_000
const SECONDS = 10

/** A picture that was made anew: a JPEG, upright, with nothing told of where it was taken. */
export interface Picture {
  jpeg: Buffer
  width: number
  height: number
}

/** What is wrong with a picture, as a sentence of the catalogue. */
export interface PictureFault {
  key: Key
  params: Record<string, string>
}

export type PictureReading<Made> = { ok: true; made: Made } | { ok: false; fault: PictureFault }

/** What is known of a picture before it is unpacked. */
export interface Looked {
  kind: Kind
  pixels: number
}

const KINDS = { jpeg: 'JPEG', png: 'PNG', webp: 'WebP' } as const
type Kind = keyof typeof KINDS

// One core unpacks: the other one answers.
sharp.concurrency(1)
sharp.cache(false)
// Everything else that the library could read (SVG, PDF, TIFF …) is never even looked at.
sharp.block({ operation: ['VipsForeignLoad'] })
sharp.unblock({
  operation: ['VipsForeignLoadJpegBuffer', 'VipsForeignLoadPngBuffer', 'VipsForeignLoadWebpBuffer'],
})

/**
 * Looks what an uploaded picture is without unpacking it, and refuses what is none that we take; `type` is the one it was
 * sent as, '' where none was said.
 */
export async function lookAtPicture(
  bytes: Uint8Array,
  type: string,
  mostBytes: number,
): Promise<PictureReading<Looked>> {
  const megabytes = String(mostBytes / 1e6)
  if (bytes.length > mostBytes) return refused('photos.too-large', { megabytes })
  try {
    const source = sharp(bytes, { limitInputPixels: false, failOn: 'error' })
    const { format, pages, width, height, channels, depth } = await source.metadata()
    if (!isKind(format)) return refused('photos.unreadable')
    if (isAnother(type, format)) return refused('photos.another-kind', { said: type, kind: KINDS[format] })
    if ((pages ?? 1) > 1) return refused('photos.moving')
    const pixels = width * height
    if (pixels > MOST_PIXELS) return refused('photos.pixels', { millions: String(MOST_PIXELS / 1e6) })
    if (pixels * channels * (depth === 'uchar' ? 1 : 2) > MOST_UNPACKED) return refused('photos.unpacked')
    return { ok: true, made: { kind: format, pixels } }
  } catch {
    return refused('photos.unreadable')
  }
}

/**
 * Makes of a picture that was looked at what is wanted of it, upright and without its metadata.
 * @throws {TooManyPictures} when too many wait already
 */
export async function remakePicture<Made>(
  bytes: Uint8Array,
  make: (upright: Sharp) => Promise<Made>,
): Promise<PictureReading<Made>> {
  return oneAtATime(async () => {
    try {
      const upright = sharp(bytes, { limitInputPixels: MOST_PIXELS, failOn: 'error' })
        .timeout({ seconds: SECONDS })
        .autoOrient()
      return { ok: true, made: await make(upright) }
    } catch {
      return refused('photos.unreadable')
    }
  })
}

/** Ends what is made of a picture: in the colors of the web, on white, and without anything but the picture. */
export async function asJpeg(picture: Sharp, quality: number): Promise<Picture> {
  const { data, info } = await picture
    .flatten({ background: '#ffffff' })
    .toColourspace('srgb')
    .jpeg({ quality })
    .toBuffer({ resolveWithObject: true })
  return { jpeg: data, width: info.width, height: info.height }
}

function refused(key: Key, params: Record<string, string> = {}): { ok: false; fault: PictureFault } {
  return { ok: false, fault: { key, params } }
}

function isKind(format: string | undefined): format is Kind {
  return format !== undefined && Object.hasOwn(KINDS, format)
}

// Names that browsers and phones still send for the same kinds.
const OLDER_NAMES: Record<string, string> = {
  'image/jpg': 'image/jpeg',
  'image/pjpeg': 'image/jpeg',
  'image/x-png': 'image/png',
}

function isAnother(type: string, format: string): boolean {
  const said = type.split(';')[0]!.trim().toLowerCase()
  return !['', 'application/octet-stream', `image/${format}`].includes(OLDER_NAMES[said] ?? said)
}
