import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import sharp from 'sharp'

/** Keeps the README's pictures of what the walk through the whole job left in the folder that is named: `npm run pictures`. */
const PICTURES = ['range', 'price', 'booking']
const folder = join(import.meta.dirname, 'pictures')

const [shots] = process.argv.slice(2)
if (!shots) throw new Error('Name the folder of the walk’s pictures.')
mkdirSync(folder, { recursive: true })
for (const name of PICTURES) {
  const { size } = await sharp(join(shots, 'with-scripts', `readme-${name}.png`))
    .webp({ quality: 80 })
    .toFile(join(folder, `${name}.webp`))
  console.log(`${name}: ${size} bytes`)
}
