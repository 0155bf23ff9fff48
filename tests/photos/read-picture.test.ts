import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { t } from '../../src/language/catalogue.ts'
import { MOST_BYTES, readFinishPicture } from '../../src/photos/finish-picture.ts'
import { bomb, deep, halves, phonePhoto } from './pictures.ts'

async function madeOf(bytes: Uint8Array, type = ''): Promise<Buffer> {
  const read = await readFinishPicture(bytes, type)
  if (!read.ok) throw new Error(read.fault.key)
  return read.made.jpeg
}

async function faultOf(bytes: Uint8Array, type = ''): Promise<string> {
  const read = await readFinishPicture(bytes, type)
  return read.ok ? 'none' : t('en', read.fault.key, read.fault.params)
}

/** The colour in the middle of a part of a picture, 'red' or 'blue' by what there is more of. */
async function colourAt(jpeg: Buffer, left: number, top: number): Promise<string> {
  const { data } = await sharp(jpeg)
    .extract({ left, top, width: 1, height: 1 })
    .raw()
    .toBuffer({ resolveWithObject: true })
  return data[0]! > data[2]! ? 'red' : 'blue'
}

describe('an uploaded picture', () => {
  it('of each kind becomes a JPEG of 288 × 176', async () => {
    const picture = halves('#ff0000', '#0000ff')
    const kinds = { jpeg: picture.clone().jpeg(), png: picture.clone().png(), webp: picture.clone().webp() }
    for (const [kind, made] of Object.entries(kinds)) {
      const jpeg = await madeOf(await made.toBuffer(), `image/${kind}`)
      expect(await sharp(jpeg).metadata()).toMatchObject({ format: 'jpeg', width: 288, height: 176 })
      expect(await colourAt(jpeg, 20, 88)).toBe('red')
      expect(await colourAt(jpeg, 268, 88)).toBe('blue')
    }
  })

  it('is the same, to the byte, when it is made again', async () => {
    const photo = await phonePhoto()
    expect(await madeOf(photo)).toEqual(await madeOf(photo))
  })

  it('is turned as it says, and tells nothing of who took it where', async () => {
    const photo = await phonePhoto()
    const before = await sharp(photo).metadata()
    expect(before.orientation).toBe(6)
    expect(before.exif?.toString('latin1')).toContain('Somebody Invented')
    const jpeg = await madeOf(photo, 'image/jpeg')
    const after = await sharp(jpeg).metadata()
    for (const kept of ['exif', 'xmp', 'iptc', 'icc', 'orientation', 'comments'] as const)
      expect({ kept, value: after[kept] }).toEqual({ kept, value: undefined })
    expect(jpeg.toString('latin1')).not.toMatch(/Exif|Invented|GPS/)
    // Orientation 6: a quarter turn to the right puts what was on the left on top.
    expect([await colourAt(jpeg, 144, 10), await colourAt(jpeg, 144, 165)]).toEqual(['red', 'blue'])
  })

  it('is cropped to its middle, whichever way it is too long', async () => {
    // The middle 1,440 of 4,000: from 1,280 to 2,720, so both colours meet in its middle.
    const wide = await madeOf(await halves('#ff0000', '#0000ff', 4000, 880).png().toBuffer())
    expect([await colourAt(wide, 134, 50), await colourAt(wide, 154, 50)]).toEqual(['red', 'blue'])
  })

  it('of what is transparent shows white', async () => {
    const clear = {
      width: 100,
      height: 100,
      channels: 4 as const,
      background: { r: 0, g: 0, b: 0, alpha: 0 },
    }
    const jpeg = await madeOf(await sharp({ create: clear }).png().toBuffer())
    const { dominant } = await sharp(jpeg).stats()
    expect(Math.min(dominant.r, dominant.g, dominant.b)).toBeGreaterThan(240)
  })
})

describe('what is no picture for a finish is refused', () => {
  const unreadable = 'We can’t read this as a picture.'

  it('for its kind: SVG, GIF, TIFF, text, nothing', async () => {
    const svg =
      '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><rect width="9" height="9"/></svg>'
    const picture = halves('#ff0000', '#0000ff', 80, 60)
    for (const bytes of [
      Buffer.from(svg),
      await picture.clone().gif().toBuffer(),
      await picture.clone().tiff().toBuffer(),
      Buffer.from('not a picture'),
      Buffer.alloc(0),
    ])
      for (const type of ['', 'image/jpeg', 'image/svg+xml'])
        expect(await faultOf(bytes, type)).toContain(unreadable)
  })

  it('for lying about its kind', async () => {
    const png = await halves('#ff0000', '#0000ff', 80, 60).png().toBuffer()
    expect(await faultOf(png, 'image/jpeg')).toBe(
      'This says image/jpeg, but it’s a PNG. Save it again as a PNG.',
    )
    expect(await faultOf(png, 'application/pdf')).toContain('says application/pdf')
    expect(await faultOf(png, 'application/octet-stream')).toBe('none')
  })

  it('for being cut short', async () => {
    const picture = halves('#ff0000', '#0000ff')
    for (const made of [picture.clone().jpeg(), picture.clone().png(), picture.clone().webp()]) {
      const bytes = await made.toBuffer()
      expect(await faultOf(bytes.subarray(0, Math.floor(bytes.length / 2)))).toContain(unreadable)
    }
  })

  it('for moving', async () => {
    const frames = Buffer.concat([Buffer.alloc(300, 0), Buffer.alloc(300, 255)])
    const moving = sharp(frames, { raw: { width: 10, height: 20, channels: 3, pageHeight: 10 } })
    expect(await faultOf(await moving.webp({ delay: [100, 100], loop: 0 }).toBuffer())).toContain(
      'That’s an animation.',
    )
  })

  it('for its pixels, before they are unpacked', async () => {
    const small = bomb()
    // 112 MB of zeros, in well under a megabyte.
    expect(small.length).toBeLessThan(500_000)
    const before = process.memoryUsage().rss
    expect(await faultOf(small, 'image/png')).toBe('It has too many pixels: 50 million at most.')
    expect(process.memoryUsage().rss - before).toBeLessThan(50_000_000)
  })

  it('for what it takes unpacked, however few its pixels are', async () => {
    expect(await faultOf(deep(), 'image/png')).toContain('It’s too large when opened.')
  })

  it('for its bytes', async () => {
    expect(await faultOf(new Uint8Array(MOST_BYTES + 1))).toBe('That’s too large: 8 MB at most.')
  })

  it('by one thread, so that the other core answers', () => {
    expect(sharp.concurrency()).toBe(1)
  })
})
