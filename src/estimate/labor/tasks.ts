import { type Decimal, middleOf, rounded, sumOf } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extraQuantity, extrasOf } from '../job/extras.ts'
import type { JobQuantities } from '../job/quantities.ts'
import type { RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'

/** Crew hours of one task at the middle of its rate, to the hundredth: 'spread', 'trip', 'set-up' or an extra's slug. */
export interface Task {
  task: string
  hours: string
}

/** The labor hours of a job, task by task; trips and setting up only where the table gives them hours. */
export function tasksOf(job: Job, quantities: JobQuantities, trips: Decimal, table: RateTable): Task[] {
  const { volumesPerBulk } = unitSystem(table.units)
  const slowed = sumOf(quantities.finishes.map(finish => finish.slowed))
  const spread = slowed.times(middleOf(table.labor.spread)).div(volumesPerBulk)
  const extras = extrasOf(job, table).map(extra => {
    const { units, unitsPer } = extraQuantity(extra, job, quantities, table)
    return { task: extra.slug, hours: units.times(middleOf(extra.crewHours)).div(unitsPer) }
  })
  const trip = trips.times(middleOf(table.labor.trip))
  const setUp = middleOf(table.labor.setUp)
  return [
    { task: 'spread', hours: spread },
    ...extras,
    ...(trip.gt(0) ? [{ task: 'trip', hours: trip }] : []),
    ...(setUp.gt(0) ? [{ task: 'set-up', hours: setUp }] : []),
  ].map(({ task, hours }) => ({ task, hours: rounded(hours, 2).toFixed(2) }))
}
