import type { Told } from '../estimate/job/bed.ts'
import type { BedView } from '../requests/bed-view.ts'

/**
 * One bed as told beside what was measured differently; `told` is null for a bed found on site, `measured` for one
 * dropped there.
 */
export interface ToldAndMeasured {
  bed: string
  told: string[] | null
  measured: string[] | null
}

/** Puts beds as told beside what was measured of them, in the order of the told ones, then those found on site. */
export function compareBeds(
  told: (BedView | null)[],
  measured: (BedView | null)[],
  { beds }: Told,
): ToldAndMeasured[] {
  const rows = told.map((bed, index): ToldAndMeasured => {
    const at = beds.findIndex(one => one.toldBed === index)
    return {
      bed: `Bed ${index + 1}`,
      told: inWords(bed),
      measured: at < 0 ? null : difference(bed, measured[at] ?? null),
    }
  })
  const found = beds.flatMap((bed, index): ToldAndMeasured[] =>
    (bed.toldBed ?? null) === null
      ? [{ bed: 'Found on site', told: null, measured: inWords(measured[index] ?? null) }]
      : [],
  )
  return [...rows, ...found]
}

function difference(told: BedView | null, measured: BedView | null): string[] {
  const [before, after] = [inWords(told), inWords(measured)]
  if (told && measured && told.count > 1 && measured.count === 1) after.splice(1, 0, 'only one')
  const different = after.filter(word => !before.includes(word))
  return different.length > 0 ? different : ['as described']
}

function inWords(bed: BedView | null): string[] {
  if (!bed) return ['can’t be read anymore']
  const count = bed.count > 1 ? `${bed.count} like this` : ''
  return [
    bed.title,
    count,
    `${bed.finish}, ${bed.depth}`,
    bed.beneath,
    bed.planted,
    bed.lying,
    bed.measured,
  ].filter(Boolean)
}
