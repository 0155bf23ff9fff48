import { expect, test } from 'vitest'
import { readFinishPicture } from '../../src/photos/finish-picture.ts'
import { halves } from './pictures.ts'

test('a JPEG is one by its older names too', async () => {
  const jpeg = await halves('#ff0000', '#0000ff').jpeg().toBuffer()
  for (const type of ['image/jpg', 'image/pjpeg', 'IMAGE/JPEG'])
    expect([type, (await readFinishPicture(jpeg, type)).ok]).toEqual([type, true])
})
