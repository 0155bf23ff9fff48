import type { Decimal } from '../../lib/decimal.ts'
import type { Bed, Job, Layer, Lying } from '../job/bed.ts'
import { type ShapeName, shapeOf } from '../shapes/all-shapes.ts'
import type { Size } from '../shapes/sizes.ts'
import { type UnitSystem, unitSystem } from '../units/units.ts'
import {
  type BedUnderstood,
  type Figure,
  FORMAT,
  type JobUnderstood,
  type LayerUnderstood,
  type SizeUnderstood,
} from './format.ts'

/** A job as it is stored, in the units of the rate table that it was read by. */
export function recordJob({ beds, extras, postcode }: Job, units: UnitSystem['name']): JobUnderstood {
  const system = unitSystem(units)
  return {
    format: FORMAT,
    beds: beds.map(bed => recordBed(bed, system)),
    extras: extras.map(({ slug }) => slug),
    postcode,
  }
}

function recordBed(bed: Bed, system: UnitSystem): BedUnderstood {
  const { shape, count, measuredBy, planted, work, stairs, slope, narrowGate } = bed
  return {
    shape,
    sizes: recordSizes(shape, bed.sizes, system),
    cutOuts: bed.cutOuts.map(one => ({ ...one, sizes: recordSizes(one.shape, one.sizes, system) })),
    count,
    measuredBy,
    planted,
    lying: recordLying(bed.lying, system),
    work,
    finish: bed.finish.slug,
    depth: bed.usual ? null : figure(bed.depth, system.depth),
    noEdge: figure(bed.noEdge, system.length),
    carry: figure(bed.carry, system.length),
    stairs,
    ...(slope !== 'level' && { slope }),
    ...(narrowGate && { narrowGate }),
    extras: bed.extras.map(({ slug }) => slug),
    ...(bed.layers.length > 0 && { layers: bed.layers.map(layer => recordLayer(layer, system)) }),
  }
}

/** What a size is measured in, by what it is read as. */
export const UNIT_OF = { length: 'length', lengths: 'length', area: 'area', volume: 'volume' } as const

function recordSizes(
  shape: ShapeName,
  sizes: Record<string, Size>,
  system: UnitSystem,
): Record<string, SizeUnderstood> {
  const asked = shapeOf(shape).sizes
  const unitOf = (name: string) => {
    const { reads } = asked.find(size => name === size.name || name.startsWith(`${size.name}.`))!
    return system[UNIT_OF[reads]]
  }
  return Object.fromEntries(
    Object.entries(sizes).map(([name, { value, spread, about, paced }]) => [
      name,
      {
        ...figure(value, unitOf(name)),
        ...(spread && { spread: spread.toFixed() }),
        ...(about && { about }),
        ...(paced && { paced }),
      },
    ]),
  )
}

function recordLayer(layer: Layer, { depth }: UnitSystem): LayerUnderstood {
  return 'extra' in layer
    ? { extra: layer.extra.slug }
    : { finish: layer.finish.slug, depth: figure(layer.depth, depth) }
}

function recordLying({ layer, m, spread }: Lying, { depth }: UnitSystem): BedUnderstood['lying'] {
  return layer ?? { ...figure(m, depth), ...(spread && { spread: spread.toFixed() }) }
}

function figure(value: Decimal, unit: Figure['unit']): Figure {
  return { value: value.toFixed(), unit }
}
