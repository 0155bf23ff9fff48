import type { BedTold, LayerTold } from '../estimate/job/bed.ts'
import { layerChoices, layerNamed, MOST_LAYERS } from '../estimate/table/layer.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import type { BedUnderstood } from '../estimate/understood/format.ts'
import type { FormFields } from '../http/form-fields.ts'

/** Two places to begin with, and one more than there are. */
const LEAST_PLACES = 2

/** The layers as posted, without the empty rows at their end. */
export function layersPosted(posted: FormFields): LayerTold[] {
  const rows = posted.rows('layers').map(row => ({ what: row.text('what'), depth: row.text('depth') }))
  const last = rows.findLastIndex(({ what, depth }) => what !== '' || depth !== '')
  return rows.slice(0, last + 1)
}

/** The layers that a bed has so far: as they were typed on a sheet before, else as they were understood. */
export function layersBefore(
  { layers }: Pick<BedTold, 'layers'>,
  understood: BedUnderstood | undefined,
): LayerTold[] {
  if (Array.isArray(layers)) return layers
  return (understood?.layers ?? []).map(layer =>
    'extra' in layer
      ? { what: layer.extra, depth: '' }
      : { what: layer.finish, depth: `${layer.depth.value} ${layer.depth.unit}` },
  )
}

/** How many rows a bed shows. */
export function layerPlaces(layers: LayerTold[]): number {
  return Math.min(MOST_LAYERS, Math.max(LEAST_PLACES, layers.length + 1))
}

/** What can be put beneath a bed; what lies beneath one of the sheet already is there too. */
export function layerOptions(
  sheet: { beds: { layers: LayerTold[] }[] },
  table: RateTable,
): { value: string; label: string }[] {
  const { finishes, extras } = layerChoices(table)
  const used = new Set(sheet.beds.flatMap(({ layers }) => layers.map(({ what }) => what)))
  const others = table.extras.filter(extra => {
    const named = used.has(extra.slug) && !extras.includes(extra) && layerNamed(extra.slug, table)
    return named && 'extra' in named
  })
  return [
    { value: '', label: 'Nothing' },
    ...[...finishes, ...extras, ...others].map(({ slug, name }) => ({ value: slug, label: name.en })),
  ]
}
