import { Decimal } from '../../lib/decimal.ts'
import type { Bed, Fault, Job, Layer } from '../job/bed.ts'
import { lyingNamed, lyingTold } from '../reading/read-bed.ts'
import { besideJobExtras, readExtras } from '../reading/read-extras.ts'
import { choiceOf, type Notes, notes } from '../reading/told-fields.ts'
import { type ShapeName, shapeOf } from '../shapes/all-shapes.ts'
import { entryOf, type Size } from '../shapes/sizes.ts'
import { layerNamed } from '../table/layer.ts'
import type { RateTable } from '../table/rate-table.ts'
import { type UnitSystem, unitSystem } from '../units/units.ts'
import {
  type BedUnderstood,
  type FigureUnit,
  type JobUnderstood,
  type LayerUnderstood,
  type SizeUnderstood,
  upToDate,
} from './format.ts'
import { UNIT_OF } from './record.ts'

/** A stored job with the figures of a rate table; readable has a null for each bed that this table can't price. */
export type Recalled = { ok: true; job: Job } | { ok: false; faults: Fault[]; readable: (Bed | null)[] }

/**
 * Makes a job of what was understood, by a rate table: it has a fault where that has no such finish or extra. Sizes in
 * another system's units are turned into the table's.
 */
export function recallJob(stored: JobUnderstood, table: RateTable): Recalled {
  const { beds: told, extras: asked, postcode } = upToDate(stored)
  const found = notes()
  const extras = readExtras(asked, 'extras', table, found)
  const beds = told.map((bed, index) => recallBed(bed, `beds.${index}`, extras, table, found))
  if (found.faults.length > 0) return { ok: false, faults: found.faults, readable: beds }
  return { ok: true, job: { beds: beds.filter(bed => bed !== null), extras, postcode } }
}

function recallBed(
  told: BedUnderstood,
  field: string,
  jobExtras: Job['extras'],
  table: RateTable,
  found: Notes,
): Bed | null {
  const before = found.faults.length
  const system = unitSystem(table.units)
  const slugs = table.finishes.map(({ slug }) => slug)
  const slug = choiceOf(told.finish, slugs, `${field}.finish`, 'fault.finish', found)
  const finish = table.finishes.find(one => one.slug === slug)
  const extras = readExtras(told.extras, `${field}.extras`, table, found)
  const layers = recallLayers(told.layers ?? [], `${field}.layers`, table, found)
  if (!finish || found.faults.length > before) return null
  const { shape, count, measuredBy, planted, lying, work, stairs } = told
  const bed: Bed = {
    shape,
    sizes: recallSizes(shape, told.sizes, system),
    cutOuts: told.cutOuts.map(one => ({ ...one, sizes: recallSizes(one.shape, one.sizes, system) })),
    count,
    measuredBy,
    planted,
    lying:
      typeof lying === 'string'
        ? lyingNamed(lying, table)
        : lyingTold(
            inUnit(lying.value, lying.unit, system.depth),
            lying.spread === undefined ? null : inUnit(lying.spread, lying.unit, system.depth),
            table,
          ),
    work,
    finish,
    depth: told.depth
      ? inUnit(told.depth.value, told.depth.unit, system.depth)
      : new Decimal(finish.depth.usual),
    usual: told.depth === null,
    layers,
    noEdge: inUnit(told.noEdge.value, told.noEdge.unit, system.length),
    carry: inUnit(told.carry.value, told.carry.unit, system.length),
    stairs,
    slope: told.slope ?? 'level',
    narrowGate: told.narrowGate === true,
    extras,
  }
  return besideJobExtras(bed, told.extras, field, jobExtras, found)
}

function recallLayers(told: LayerUnderstood[], field: string, table: RateTable, found: Notes): Layer[] {
  return told.flatMap((layer, index): Layer[] => {
    const slug = 'extra' in layer ? layer.extra : layer.finish
    const named =
      'extra' in layer
        ? layerNamed(slug, { ...table, finishes: [] })
        : layerNamed(slug, { ...table, extras: [] })
    if (!named) found.fault(`${field}.${index}.what`, 'fault.layer')
    else if ('extra' in named) return [named]
    else if ('depth' in layer)
      return [{ ...named, depth: inUnit(layer.depth.value, layer.depth.unit, unitSystem(table.units).depth) }]
    return []
  })
}

// In the order in which the shape asks for them: the database keeps the keys of a row in an order of its own.
function recallSizes(
  shape: ShapeName,
  sizes: Record<string, SizeUnderstood>,
  system: UnitSystem,
): Record<string, Size> {
  const recalled: Record<string, Size> = {}
  for (const { name, reads } of shapeOf(shape).sizes) {
    const unit = system[UNIT_OF[reads]]
    const names = reads === 'lengths' ? entriesOf(sizes, name) : [name]
    for (const one of names) recalled[one] = recallSize(sizes[one]!, unit)
  }
  return recalled
}

function entriesOf(sizes: Record<string, unknown>, list: string): string[] {
  const names: string[] = []
  while (entryOf(list, names.length) in sizes) names.push(entryOf(list, names.length))
  return names
}

function recallSize({ value, unit, spread, about, paced }: SizeUnderstood, wanted: FigureUnit): Size {
  return {
    value: inUnit(value, unit, wanted),
    spread: spread === undefined ? null : inUnit(spread, unit, wanted),
    about: about === true,
    paced: paced === true,
  }
}

// In metres, square or cubic; NIST SP 811, exact.
const METRES: Record<FigureUnit, string> = {
  ft: '0.3048',
  in: '0.0254',
  ft2: '0.09290304',
  ft3: '0.028316846592',
  m: '1',
  cm: '0.01',
  m2: '1',
  m3: '1',
}

// What is in the unit already isn't touched: not a digit may change.
function inUnit(value: string, unit: FigureUnit, wanted: FigureUnit): Decimal {
  const size = new Decimal(value)
  return unit === wanted ? size : size.times(METRES[unit]).div(METRES[wanted])
}
