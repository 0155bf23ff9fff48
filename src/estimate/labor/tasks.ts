import { Decimal, figureOf, middleOf, rounded, sumOf, zero } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extraQuantity, extrasOf } from '../job/extras.ts'
import type { JobQuantities } from '../job/quantities.ts'
import type { RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import { driveHours } from './coming.ts'

/**
 * Labor hours of one task at the middle of its rate, to the hundredth: 'spread', 'trip', 'set-up', 'drive', what is
 * missing to the 'least' that a job counts as, or an extra's slug.
 */
export interface Task {
  task: string
  hours: string
}

/** The labor hours of a job, task by task; what is around the work only where the table gives it hours. */
export function tasksOf(job: Job, quantities: JobQuantities, trips: Decimal, table: RateTable): Task[] {
  const { volumesPerBulk } = unitSystem(table.units)
  const slowed = sumOf(quantities.finishes.map(finish => finish.slowed))
  const spread = slowed.times(middleOf(table.labor.spread)).div(volumesPerBulk)
  const extras = extrasOf(job, table).map(extra => {
    const { units, unitsPer } = extraQuantity(extra, job, quantities, table)
    return { task: extra.slug, hours: units.times(middleOf(extra.laborHours)).div(unitsPer) }
  })
  const trip = trips.times(middleOf(table.labor.trip))
  const setUp = middleOf(table.labor.setUp)
  const work = [
    ...toTheHundredth('spread', spread, true),
    ...extras.flatMap(({ task, hours }) => toTheHundredth(task, hours, true)),
    ...toTheHundredth('trip', trip),
    ...toTheHundredth('set-up', setUp),
  ]
  const withDrive = [...work, ...toTheHundredth('drive', driveHours(hoursOf(work), job.postcode, table))]
  return [...withDrive, ...toTheHundredth('least', missing(hoursOf(withDrive), table))]
}

/** The hours of tasks together. */
export function hoursOf(tasks: Task[]): Decimal {
  return sumOf(tasks.map(({ hours }) => new Decimal(hours)))
}

/** How many hours are missing to the least that a job counts as. */
function missing(hours: Decimal, { labor }: RateTable): Decimal {
  return labor.least === '0' ? zero : Decimal.max(zero, figureOf(labor.least).minus(hours))
}

function toTheHundredth(task: string, hours: Decimal, always = false): Task[] {
  return always || hours.gt(0) ? [{ task, hours: rounded(hours, 2).toFixed(2) }] : []
}
