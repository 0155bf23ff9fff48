import sharp from 'sharp'
import { expect, test } from 'vitest'
import { makeGardenPicture, unitsOfPicture } from '../../src/photos/garden-picture.ts'
import { oneAtATime, TooManyPictures } from '../../src/photos/one-at-a-time.ts'
import { lookAtPicture } from '../../src/photos/read-picture.ts'
import { halves, phonePhoto } from './pictures.ts'

async function madeOf(bytes: Buffer) {
  const made = await makeGardenPicture(bytes)
  if (!made.ok) throw new Error(made.fault.key)
  return made.made
}

test('a large photo becomes 1,280 and 320 pixels on its longer side, whichever that is', async () => {
  const wide = await madeOf(await halves('#ff0000', '#0000ff', 2560, 1000).jpeg().toBuffer())
  expect(wide.picture).toMatchObject({ width: 1280, height: 500 })
  expect(wide.small).toMatchObject({ width: 320, height: 125 })
  const tall = await madeOf(await halves('#ff0000', '#0000ff', 1000, 2560).png().toBuffer())
  expect(tall.picture).toMatchObject({ width: 500, height: 1280 })
  expect(await sharp(tall.picture.jpeg).metadata()).toMatchObject({
    format: 'jpeg',
    width: 500,
    height: 1280,
  })
  expect(await sharp(tall.small.jpeg).metadata()).toMatchObject({ format: 'jpeg', width: 125, height: 320 })
})

test('a small photo stays as small as it is', async () => {
  const { picture, small } = await madeOf(await halves('#ff0000', '#0000ff', 200, 100).webp().toBuffer())
  expect(picture).toMatchObject({ width: 200, height: 100 })
  expect(small).toMatchObject({ width: 200, height: 100 })
})

test('it is turned as the phone says, and tells nothing of who took it where', async () => {
  const { picture, small } = await madeOf(await phonePhoto())
  // 800 × 600 on its side.
  expect(picture).toMatchObject({ width: 600, height: 800 })
  for (const { jpeg } of [picture, small]) {
    const { exif, xmp, iptc, icc, orientation } = await sharp(jpeg).metadata()
    expect([exif, xmp, iptc, icc, orientation]).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
      undefined,
    ])
    expect(jpeg.toString('latin1')).not.toContain('Somebody Invented')
  }
})

test('what is charged grows with the pixels, and is more for what unpacks slower', async () => {
  const units = async (bytes: Buffer) => {
    const looked = await lookAtPicture(bytes, '', 1e9)
    if (!looked.ok) throw new Error(looked.fault.key)
    return unitsOfPicture(looked.made)
  }
  const picture = halves('#ff0000', '#0000ff', 1000, 1000)
  expect(await units(await picture.clone().jpeg().toBuffer())).toBe(40)
  expect(await units(await picture.clone().png().toBuffer())).toBe(50)
  expect(await units(await picture.clone().webp().toBuffer())).toBe(100)
})

test('pictures are made one after another, and of too many at once the last are refused', async () => {
  const gate = Promise.withResolvers<void>()
  let running = 0
  let most = 0
  const work = async () => {
    running += 1
    most = Math.max(most, running)
    await gate.promise
    running -= 1
  }
  const all = Array.from({ length: 16 }, () => oneAtATime(work))
  await expect(oneAtATime(work)).rejects.toThrow(TooManyPictures)
  gate.resolve()
  await Promise.all(all)
  expect(most).toBe(1)
  await expect(oneAtATime(async () => 'done')).resolves.toBe('done')
})
