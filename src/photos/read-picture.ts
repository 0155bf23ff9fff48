import sharp from 'sharp'

/** Four times the tile of a finish: sharp on every screen, and small enough that six of them load at once. */
const WIDTH = 288
const HEIGHT = 176
export const MOST_BYTES = 8_000_000
const MOST_PIXELS = 50_000_000
/** Of a picture as it is unpacked: one that is interlaced is held whole. */
const MOST_UNPACKED = 160_000_000
const QUALITY = 75
const SECONDS = 10

/** A picture that was read and made anew: a JPEG of one size, upright, with nothing told of where it was taken. */
export interface Picture {
  jpeg: Buffer
  width: number
  height: number
}

export type PictureReading = { ok: true; picture: Picture } | { ok: false; fault: string }

const KINDS: Record<string, string> = { jpeg: 'JPEG', png: 'PNG', webp: 'WebP' }
const UNREADABLE = 'We can’t read this as a picture. Choose a JPEG, PNG, or WebP, or take the photo again.'

// One core unpacks: the other one answers.
sharp.concurrency(1)
sharp.cache(false)
// Everything else that the library could read (SVG, PDF, TIFF …) is never even looked at.
sharp.block({ operation: ['VipsForeignLoad'] })
sharp.unblock({
  operation: ['VipsForeignLoadJpegBuffer', 'VipsForeignLoadPngBuffer', 'VipsForeignLoadWebpBuffer'],
})

/** Reads an uploaded photo; `type` is the one it was sent as, '' where none was said. What is wrong is told in words. */
export async function readPicture(bytes: Uint8Array, type: string): Promise<PictureReading> {
  if (bytes.length > MOST_BYTES) return { ok: false, fault: 'That’s too large: 8 MB at most.' }
  try {
    const source = sharp(bytes, { limitInputPixels: false, failOn: 'error' })
    const { format, pages, width, height, channels, depth } = await source.metadata()
    if (!KINDS[format]) return { ok: false, fault: UNREADABLE }
    if (isAnother(type, format))
      return {
        ok: false,
        fault: `This says ${type}, but it’s a ${KINDS[format]}. Save it again as a ${KINDS[format]}.`,
      }
    if ((pages ?? 1) > 1) return { ok: false, fault: 'That’s an animation. Choose a still picture.' }
    if (width * height > MOST_PIXELS)
      return { ok: false, fault: `It has too many pixels: ${MOST_PIXELS / 1e6} million at most.` }
    if (width * height * channels * (depth === 'uchar' ? 1 : 2) > MOST_UNPACKED)
      return {
        ok: false,
        fault: 'It’s too large when opened. Make it smaller, or save it as a plain JPEG.',
      }
    return { ok: true, picture: await oneAtATime(() => madeAnew(bytes)) }
  } catch {
    return { ok: false, fault: UNREADABLE }
  }
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

let last: Promise<unknown> = Promise.resolve()

// Several at once would each hold a whole picture.
function oneAtATime<T>(work: () => Promise<T>): Promise<T> {
  const done = last.then(work)
  last = done.catch(() => undefined)
  return done
}

async function madeAnew(bytes: Uint8Array): Promise<Picture> {
  const jpeg = await sharp(bytes, { limitInputPixels: MOST_PIXELS, failOn: 'error' })
    .timeout({ seconds: SECONDS })
    .autoOrient()
    .resize(WIDTH, HEIGHT, { fit: 'cover' })
    .flatten({ background: '#ffffff' })
    .toColourspace('srgb')
    .jpeg({ quality: QUALITY })
    .toBuffer()
  return { jpeg, width: WIDTH, height: HEIGHT }
}
