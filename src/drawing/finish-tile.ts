import type { Finish } from '../estimate/table/rate-table.ts'
import { swatchTile } from './hatches.ts'
import { drawTile, type SharedTile, shareTile } from './tile.ts'

/** Where the photo of a finish is served. */
export function photoPath(name: string): string {
  return `/finishes/photos/${encodeURIComponent(name)}`
}

/** What a finish looks like, as markup: its photo where it has one, else its drawn swatch. Its name must stand beside it. */
export function drawFinish({ photo, hatch, swatch }: Finish, id: string): string {
  return photo === null ? drawTile(swatchTile(hatch, swatch, id)) : drawPhoto(photo)
}

/** The same where it stands many times on a page. */
export function shareFinish({ photo, hatch, swatch }: Finish, id: string): SharedTile {
  return photo === null
    ? shareTile(swatchTile(hatch, swatch, id), id)
    : { symbol: '', drawing: drawPhoto(photo) }
}

function drawPhoto(photo: string): string {
  return `<img class="swatch swatch-photo" src="${photoPath(photo)}" alt="" width="72" height="44" loading="lazy">`
}
