import { Decimal } from '../../lib/decimal.ts'
import { once } from '../../lib/once.ts'
import type { Bed, Job } from '../job/bed.ts'
import { extrasOf } from '../job/extras.ts'
import { plainOutlineOf } from '../job/outline.ts'
import { finishesOf, type JobQuantities, toldSizes } from '../job/quantities.ts'
import { volumesToOrder } from '../packs/shopping.ts'
import type { CautionCode } from '../table/caution.ts'
import type { RateTable } from '../table/rate-table.ts'
import { travelCharge } from '../table/travel.ts'
import { showArea, showLength, showVolume } from '../units/show.ts'
import { type UnitSystem, unitSystem } from '../units/units.ts'
import { figureOf } from './caution-figures.ts'

/**
 * A warning to show: its text is the owner's, else 'caution.<code>' in the language's catalogue, filled with params.
 */
export interface CautionGiven {
  code: string
  params: Record<string, string>
  source: string
}

/** A warning that a job gives rise to, whether it is shown or not. */
export type Noted = Omit<CautionGiven, 'source'>

/** The warnings that homeowners read of their job, each with the figure and the source the rate table names. */
export function cautionsOf(job: Job, quantities: JobQuantities, table: RateTable): CautionGiven[] {
  const forAll = { ...table, cautions: table.cautions.filter(({ readBy }) => readBy === 'everyone') }
  return shownOf(notedOf(job, quantities, table), forAll)
}

/** What a job gives rise to by its beds, its place, its finishes and its extras. */
export function notedOf(job: Job, quantities: JobQuantities, table: RateTable): Noted[] {
  return [
    ...bedsCautions(job, table),
    ...postcodeCaution(job, table),
    ...edgeCaution(job, quantities, table),
    ...finishCautions(job, quantities, table),
    ...extrasOf(job, table).flatMap(extra => extra.cautions.map(code => ({ code, params: {} }))),
  ]
}

/** Of warnings noted those that the table shows, each once. */
export function shownOf<One extends Noted>(
  noted: One[],
  { cautions }: Pick<RateTable, 'cautions'>,
): (One & CautionGiven)[] {
  const each = new Map(noted.map(one => [JSON.stringify(one), one]))
  return [...each.values()].flatMap(one => {
    const known = cautions.find(({ code, shown }) => shown && code === one.code)
    return known
      ? [{ ...one, params: { figure: known.figure ?? '', ...one.params }, source: known.source }]
      : []
  })
}

function bedsCautions(job: Job, table: RateTable): Noted[] {
  const limit = largestSize(table)
  return job.beds.flatMap((bed, index) => bedCautions(bed, index, limit, table))
}

// Read once, as every ballpark asks for it.
const largestSize = once((table: RateTable) => figureOf('large-size', table))

function bedCautions(
  bed: Bed,
  index: number,
  { limit, figure }: ReturnType<typeof figureOf>,
  table: RateTable,
): Noted[] {
  const system = unitSystem(table.units)
  const name = String(index + 1)
  const noted = (code: CautionCode, params: Noted['params']): Noted => ({
    code,
    params: { bed: name, ...params },
  })
  const inDepth = (depth: Decimal | string) => `${new Decimal(depth).toDecimalPlaces(2)} ${system.depth}`
  const { least, greatest } = bed.finish.depth
  const depth = inDepth(bed.depth)
  return [
    ...(bed.depth.gt(greatest) ? [noted('depth-over', { depth, greatest: inDepth(greatest) })] : []),
    ...(bed.depth.lt(least) ? [noted('depth-under', { depth, least: inDepth(least) })] : []),
    ...largeSizes(bed, limit, system).map(size => noted('large-size', { figure, size })),
  ]
}

// A size, or of a list the whole bed, beyond the figure; an area beyond the square of that side, a volume beyond what
// that square takes at the bed's depth.
function largeSizes(bed: Bed, limit: Decimal, system: UnitSystem): string[] {
  const square = limit.times(limit)
  const { area, volume } = toldSizes(bed)
  if (area) return area.gt(square) ? [showArea(area, system)] : []
  if (volume) {
    const most = square.times(bed.depth).div(system.depthsPerLength)
    return volume.gt(most) ? [showVolume(volume, system)] : []
  }
  const large = Object.values(bed.sizes).filter(({ value }) => value.gt(limit))
  if (large.length > 0) return large.map(({ value }) => showLength(value, system))
  const { width = 0, height = 0 } = plainOutlineOf(bed) ?? {}
  const longest = Decimal.max(width, height)
  return longest.gt(limit) ? [showLength(longest, system)] : []
}

function postcodeCaution(job: Job, table: RateTable): Noted[] {
  const served = travelCharge(job.postcode, table) !== null
  return served ? [] : [{ code: 'postcode-not-served', params: { postcode: job.postcode } }]
}

function edgeCaution(job: Job, quantities: JobQuantities, table: RateTable): Noted[] {
  const unknown = quantities.beds.some(bed => bed.edge === null)
  const priced = extrasOf(job, table).some(extra => extra.per === 'edge')
  return unknown && priced ? [{ code: 'edge-unknown', params: {} }] : []
}

function finishCautions(job: Job, quantities: JobQuantities, table: RateTable): Noted[] {
  const toOrder = volumesToOrder(quantities, table)
  return finishesOf(job, table).flatMap((finish, index) =>
    finish.cautions.map((code): Noted => {
      if (code !== 'payload' || finish.densityWet === null) return { code, params: {} }
      return { code, params: { weight: showWeight(toOrder[index]!.need.times(finish.densityWet), table) } }
    }),
  )
}

/** A weight in whole lb|kg, '2,500 lb'. */
export function showWeight(weight: Decimal, { units }: Pick<RateTable, 'units'>): string {
  const whole = weight.toDecimalPlaces(0).toFixed()
  return `${whole.replace(/\B(?=(\d{3})+$)/g, ',')} ${unitSystem(units).weight}`
}
