import { Decimal, one, sumOf, zero } from '../../lib/decimal.ts'
import type { Extra, RateTable } from '../table/rate-table.ts'
import { type Q, quantity, unitSystem } from '../units/units.ts'
import type { Job } from './bed.ts'
import { hasLayer } from './layers.ts'
import { type BedQuantities, inPlaceInAll, type JobQuantities } from './quantities.ts'

/** How much of an extra there is: units ÷ unitsPer is what its rate and its labor hours are multiplied by. */
export interface ExtraQuantity {
  shown: Q | null
  units: Decimal
  unitsPer: Decimal
}

/** The extras of the job or of any of its beds, each once, in the order of the rate table. */
export function extrasOf(job: Job, table: RateTable): Extra[] {
  const layers = job.beds.flatMap(bed => bed.layers.flatMap(layer => ('extra' in layer ? [layer.extra] : [])))
  const asked = new Set(
    [...job.extras, ...job.beds.flatMap(bed => bed.extras), ...layers].map(extra => extra.slug),
  )
  return asked.size === 0 ? [] : table.extras.filter(extra => asked.has(extra.slug))
}

/** Whether an extra is for the bed: asked for with the whole job, with this bed, or as a layer of it. */
export function isFor(extra: Extra, job: Job, bed: Job['beds'][number]): boolean {
  const asks = (one: Extra) => one.slug === extra.slug
  return job.extras.some(asks) || bed.extras.some(asks) || hasLayer(bed, extra.slug)
}

/** How much of an extra the beds that it is for come to. */
export function extraQuantity(
  extra: Extra,
  job: Job,
  quantities: JobQuantities,
  table: RateTable,
): ExtraQuantity {
  const { length, area, bulk, volumesPerBulk } = unitSystem(table.units)
  const counted = (figure: (bed: BedQuantities) => Decimal) =>
    sumOf(
      job.beds.flatMap((bed, index) =>
        isFor(extra, job, bed) ? [figure(quantities.beds[index]!).times(bed.count)] : [],
      ),
    )
  const of = (units: Decimal, shown: Q | null, unitsPer = one) => ({ shown, units, unitsPer })
  const inBulk = (units: Decimal) => of(units, quantity(units.div(volumesPerBulk), bulk), volumesPerBulk)
  switch (extra.per) {
    case 'job':
      return of(one, null)
    case 'bed': {
      const beds = counted(() => new Decimal(1))
      return of(beds, { value: beds.toFixed(), unit: 'bed' })
    }
    case 'area': {
      const units = counted(bed => bed.area)
      return of(units, quantity(units, area))
    }
    case 'edge': {
      const units = counted(bed => bed.edge ?? zero)
      return of(units, quantity(units, length))
    }
    case 'volume':
      return inBulk(counted(inPlaceInAll))
    case 'lying':
      return inBulk(counted(bed => bed.lying).times(extra.fluffing))
    default:
      return extra.per satisfies never
  }
}
