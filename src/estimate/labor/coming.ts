import { Decimal, figureOf, rounded, zero } from '../../lib/decimal.ts'
import { crewOf } from '../table/crew.ts'
import type { RateTable } from '../table/rate-table.ts'
import { zoneOf } from '../table/travel.ts'

/** The way to a place and back, once a day: hours for each of the crew, distance in mi|km. */
export interface Drive {
  hours: Decimal
  distance: Decimal
}

export function driveTo(postcode: string, table: RateTable): Drive {
  const zone = zoneOf(postcode, table)
  return {
    hours: figureOf(zone?.drive ?? table.labor.drive),
    distance: figureOf(zone?.driven ?? table.labor.driven),
  }
}

/** The labor hours of driving for so many hours of work: all of the crew, each day that the job takes. */
export function driveHours(work: Decimal, postcode: string, table: RateTable): Decimal {
  const { hours } = driveTo(postcode, table)
  if (hours.isZero()) return zero
  const { size } = crewOf(table)
  // What is left of a day on the road is for the work.
  const days = wholeDays(work, size.times(Decimal.max(zero, new Decimal(table.labor.workDay).minus(hours))))
  return days.times(hours).times(size)
}

/** How many days so many labor hours take, the driving among them. */
export function daysOf(hours: Decimal, table: RateTable): Decimal {
  return wholeDays(hours, crewOf(table).size.times(table.labor.workDay))
}

// A drive as long as the day leaves no time to work: then it is one day, for want of a better figure.
function wholeDays(hours: Decimal, each: Decimal): Decimal {
  return each.gt(0) ? Decimal.max(1, rounded(hours.div(each), 12).ceil()) : new Decimal(1)
}

/** How much there is of what the truck is reckoned by: days, hours on the clock, or mi|km driven. */
export function truckUnits(hours: Decimal, postcode: string, table: RateTable): Decimal {
  switch (table.costs.truckBy) {
    case 'day':
      return daysOf(hours, table)
    case 'hour':
      return hours.div(crewOf(table).size)
    case 'distance':
      return daysOf(hours, table).times(driveTo(postcode, table).distance)
    default:
      return table.costs.truckBy satisfies never
  }
}
