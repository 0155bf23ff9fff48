import type { Job } from '../job/bed.ts'
import type { JobQuantities } from '../job/quantities.ts'
import { driveTo } from '../labor/coming.ts'
import { laborHourCost } from '../labor/labor-hour.ts'
import { shoppingFor } from '../packs/shopping.ts'
import { dependsOnHours, priceFactor } from '../price/cost-plus.ts'
import { crewOf } from '../table/crew.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { Points } from './points.ts'
import { addAtRate, rateOf } from './rates.ts'
import type { ScenarioFinish } from './scenario-beds.ts'
import type { VolumesOf } from './scenario-costs.ts'
import { extraPrices, scenarioExtras } from './scenario-extras.ts'

/** What coming to a job adds to a price by cost in every scenario, in money, as its beds take so long. */
export type ComingPrices = (finishes: ScenarioFinish[], volumesOf: VolumesOf) => Float64Array

/**
 * The drive, the truck by the day or the distance, and what is missing to the least hours; null where none of it
 * depends on the hours. Trips to the yard are as many as the likely job takes.
 */
export function comingPrices(
  job: Job,
  quantities: JobQuantities,
  table: RateTable,
  points: Points,
): ComingPrices | null {
  if (!dependsOnHours(job, table)) return null
  const spread = rateOf(table.labor.spread)
  const extras = scenarioExtras(job, table, points, extra => extra.laborHours)
  const charged = scenarioExtras(job, table, points, ({ pricedBy, laborHours }) =>
    pricedBy === 'cost' ? laborHours : { lower: '0', upper: '0' },
  )
  const trips = shoppingFor(job, quantities, table).trips.toNumber()
  const [trip, setUp] = [rateOf(table.labor.trip, trips), rateOf(table.labor.setUp)]
  const around = points.rate.map(stand => trip.lower + trip.gap * stand + setUp.lower + setUp.gap * stand)
  const costOf = comingCost(job.postcode, table)
  return (finishes, { inPlace, slowed }) => {
    const work = extraPrices(extras, finishes, points, inPlace)
    const laid = extraPrices(charged, finishes, points, inPlace)
    for (const finish of finishes) {
      addAtRate(work, slowed(finish), spread, points.rate)
      if (finish.finish.pricedBy === 'cost') addAtRate(laid, slowed(finish), spread, points.rate)
    }
    for (let point = 0; point < points.count; point++) {
      const begun = setUp.lower + setUp.gap * points.rate[point]!
      laid[point] = costOf(work[point]! + around[point]!, laid[point]! + begun)
    }
    return laid
  }
}

// A sum of floats this little above a whole day is that day.
const HAIR = 1e-9

/** What coming costs with the margin on it, in money, for so many hours of work, and so many of them charged by cost. */
function comingCost(postcode: string, table: RateTable): (work: number, charged: number) => number {
  const { labor, costs } = table
  const [size, day, least] = [crewOf(table).size.toNumber(), Number(labor.workDay), Number(labor.least)]
  const drive = driveTo(postcode, table)
  const [driving, distance] = [drive.hours.toNumber(), drive.distance.toNumber()]
  const hour = laborHourCost(table)?.toNumber() ?? 0
  const factor = priceFactor(table).toNumber()
  const perDay = Number(costs.truckEach) * { day: 1, hour: 0, distance }[costs.truckBy]
  const daysOf = (hours: number, each: number) => (each > 0 ? Math.max(1, Math.ceil(hours / each - HAIR)) : 1)
  return (work, charged) => {
    const away = daysOf(work, size * (day - driving)) * driving * size
    const missing = Math.max(0, least - charged - away)
    return factor * ((away + missing) * hour + daysOf(Math.max(least, work + away), size * day) * perDay)
  }
}
