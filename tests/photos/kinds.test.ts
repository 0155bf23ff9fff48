import { expect, test } from 'vitest'
import { readPicture } from '../../src/photos/read-picture.ts'
import { halves } from './pictures.ts'

test('a JPEG is one by its older names too', async () => {
  const jpeg = await halves('#ff0000', '#0000ff').jpeg().toBuffer()
  for (const type of ['image/jpg', 'image/pjpeg', 'IMAGE/JPEG'])
    expect([type, (await readPicture(jpeg, type)).ok]).toEqual([type, true])
})
