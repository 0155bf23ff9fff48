import { Decimal } from '../../lib/decimal.ts'
import type { Layer } from '../job/bed.ts'
import { layerNamed, MOST_LAYERS } from '../table/layer.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import { asTyped, fieldOf, noteReading, type ReadingNotes } from './told-fields.ts'

/** The table, and whether a homeowner reads from it, who may at most leave the usual layers out. */
interface LayersAsked {
  table: RateTable
  byHomeowner: boolean
}

/** Reads the layers beneath a finish. Where nothing was said they are its usual ones, as far as its reader knows of them. */
export function readLayers(
  told: unknown,
  field: string,
  finish: Finish,
  { table, byHomeowner }: LayersAsked,
  found: ReadingNotes,
): Layer[] {
  if (!found.reader.usualLayers) return []
  if (told === undefined || told === null || told === '' || told === 'usual')
    return usualLayers(finish, table)
  if (told === 'none') return byHomeowner && !finish.layersOptional ? usualLayers(finish, table) : []
  if (byHomeowner || !Array.isArray(told)) {
    found.fault(field, 'fault.layers')
    return []
  }
  if (told.length > MOST_LAYERS) found.fault(field, 'fault.layers-too-many', { most: String(MOST_LAYERS) })
  const layers = told
    .slice(0, MOST_LAYERS)
    .flatMap((one, index) => readLayer(one, `${field}.${index}`, table, found))
  return layers
}

/** What usually lies beneath a finish. */
export function usualLayers({ layers }: Finish, table: Pick<RateTable, 'finishes' | 'extras'>): Layer[] {
  return layers.flatMap(({ slug, depth }): Layer[] => {
    const named = layerNamed(slug, table)
    if (!named) return []
    return 'extra' in named ? [named] : [{ ...named, depth: new Decimal(depth ?? named.finish.depth.usual) }]
  })
}

// A row with nothing picked is none.
function readLayer(told: unknown, field: string, table: RateTable, found: ReadingNotes): Layer[] {
  const slug = asTyped(fieldOf(told, 'what'))?.trim() ?? ''
  const typed = asTyped(fieldOf(told, 'depth'))?.trim() ?? ''
  if (slug === '' && typed === '') return []
  const named = layerNamed(slug, table)
  if (!named) {
    found.fault(`${field}.what`, 'fault.layer')
    return []
  }
  if ('extra' in named) {
    if (typed !== '') found.fault(`${field}.depth`, 'fault.layer-deep')
    return [named]
  }
  if (typed === '') return [{ ...named, depth: new Decimal(named.finish.depth.usual) }]
  const reading = found.reader.depth(typed, unitSystem(table.units))
  noteReading(reading, `${field}.depth`, found)
  return reading.ok ? [{ ...named, depth: reading.value }] : []
}
