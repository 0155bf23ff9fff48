import { crc32, deflateSync } from 'node:zlib'
import sharp, { type Sharp } from 'sharp'

/** A picture of one colour on its left and another on its right half. */
export function halves(left: string, right: string, width = 800, height = 600): Sharp {
  const half = { width: width / 2, height, channels: 3 as const, background: right }
  return sharp({ create: { width, height, channels: 3, background: left } }).composite([
    { input: { create: half }, left: width / 2, top: 0 },
  ])
}

/** A JPEG as a phone makes it: lying on its side, with the place and the owner's name in it. */
export async function phonePhoto(): Promise<Buffer> {
  return halves('#ff0000', '#0000ff')
    .withExif({
      IFD0: { Artist: 'Somebody Invented', Orientation: '6' },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: '30/1 16/1 1/1',
        GPSLongitudeRef: 'W',
        GPSLongitude: '97/1 44/1 35/1',
      },
    })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer()
}

/** A PNG that is small as a file and enormous as a picture: 30,000 × 30,000 white pixels of one bit. */
export function bomb(): Buffer {
  const size = 30_000
  const header = Buffer.alloc(13)
  header.writeUInt32BE(size, 0)
  header.writeUInt32BE(size, 4)
  header[8] = 1
  const rows = Buffer.alloc((1 + size / 8) * size, 0)
  const parts = [chunk('IHDR', header), chunk('IDAT', deflateSync(rows, { level: 9 })), chunk('IEND')]
  return Buffer.concat([Buffer.from('89504e470d0a1a0a', 'hex'), ...parts])
}

/** The beginning of a PNG of 5,000 × 5,000 pixels with four colours of 16 bits: 200 MB once it is unpacked. */
export function deep(): Buffer {
  const header = Buffer.alloc(13)
  header.writeUInt32BE(5000, 0)
  header.writeUInt32BE(5000, 4)
  header.set([16, 6, 0, 0, 1], 8)
  const row = Buffer.alloc(1 + 5000 * 8)
  const parts = [chunk('IHDR', header), chunk('IDAT', deflateSync(row)), chunk('IEND')]
  return Buffer.concat([Buffer.from('89504e470d0a1a0a', 'hex'), ...parts])
}

function chunk(kind: string, data: Buffer = Buffer.alloc(0)): Buffer {
  const body = Buffer.concat([Buffer.from(kind, 'latin1'), data])
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)]
  length.writeUInt32BE(data.length)
  sum.writeUInt32BE(crc32(body))
  return Buffer.concat([length, body, sum])
}
