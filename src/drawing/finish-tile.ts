import type { Finish } from '../estimate/table/rate-table.ts'
import { drawSwatch } from './hatches.ts'

/** Where the photo of a finish is served. */
export function photoPath(name: string): string {
  return `/finishes/photos/${encodeURIComponent(name)}`
}

/** What a finish looks like, as markup: its photo where it has one, else its drawn swatch. Its name must stand beside it. */
export function drawFinish({ photo, hatch, swatch }: Finish, id: string): string {
  if (photo === null) return drawSwatch(hatch, swatch, id)
  return `<img class="swatch swatch-photo" src="${photoPath(photo)}" alt="" width="72" height="44" loading="lazy">`
}
