import type { Bed, Job } from './bed.ts'
import { Decimal, one, sumOf, zero } from './decimal.ts'
import type { Finish, RateTable } from './rate-table.ts'
import { type Sizes, shapeOf } from './shape.ts'
import { type UnitSystem, unitSystem } from './units.ts'

/** One bed's figures as told: area in ft²|m², edge in ft|m (null where unknown), inPlace in ft³|m³. */
export interface BedQuantities {
  area: Decimal
  edge: Decimal | null
  inPlace: Decimal
}

/** A whole job's figures, every bed counted; finishes in the order of the rate table. */
export interface JobQuantities {
  beds: BedQuantities[]
  bedCount: number
  area: Decimal
  edge: Decimal
  inPlace: Decimal
  finishes: { finish: Finish; inPlace: Decimal }[]
}

export function toldSizes(bed: Bed): Sizes {
  return Object.fromEntries(Object.entries(bed.sizes).map(([name, size]) => [name, size.value]))
}

/** The depth to add, in in|cm: the target less what lies there, never below the thinnest top-up. */
export function addedDepth(bed: Bed, table: RateTable): Decimal {
  return Decimal.max(table.thinnestTopUp, bed.depth.minus(Decimal.max(0, bed.lying.m)))
}

/** One bed's quantities. A told volume is taken as it is: it was what the bed took, plants and layer included. */
export function bedQuantities(bed: Bed, table: RateTable): BedQuantities {
  const system = unitSystem(table.units)
  const shape = shapeOf(bed.shape)
  const sizes = toldSizes(bed)
  const area = shape.area(sizes, bed.depth.div(system.depthsPerLength))
  const edge = shape.edge(sizes)
  return { area, edge, inPlace: sizes.volume ?? volumeInPlace(area, bed, table, system) }
}

function volumeInPlace(area: Decimal, bed: Bed, table: RateTable, system: UnitSystem): Decimal {
  const open = one.minus(table.planted[bed.planted])
  return area.times(open).times(addedDepth(bed, table)).div(system.depthsPerLength)
}

export function jobQuantities(job: Job, table: RateTable): JobQuantities {
  const beds = job.beds.map(bed => bedQuantities(bed, table))
  const counted = (figure: (bed: BedQuantities) => Decimal) =>
    sumOf(beds.map((bed, index) => figure(bed).times(job.beds[index]!.count)))
  return {
    beds,
    bedCount: job.beds.reduce((sum, bed) => sum + bed.count, 0),
    area: counted(bed => bed.area),
    edge: counted(bed => bed.edge ?? zero),
    inPlace: counted(bed => bed.inPlace),
    finishes: finishesOf(job, table).map(finish => ({
      finish,
      inPlace: sumOf(
        beds.flatMap((bed, index) => {
          const { count, finish: dressed } = job.beds[index]!
          return dressed.slug === finish.slug ? [bed.inPlace.times(count)] : []
        }),
      ),
    })),
  }
}

/** The finishes of the job, each once, in the order of the rate table. */
export function finishesOf(job: Job, table: RateTable): Finish[] {
  const used = new Set(job.beds.map(bed => bed.finish.slug))
  return table.finishes.filter(finish => used.has(finish.slug))
}
