import { Decimal, figureOf, middleOf, one, sumOf, zero } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extraQuantity, extrasOf } from '../job/extras.ts'
import { type Factor, type Factors, factor } from '../job/factors.ts'
import type { FinishQuantities, JobQuantities } from '../job/quantities.ts'
import { driveTo, truckUnits } from '../labor/coming.ts'
import { laborHourCost } from '../labor/labor-hour.ts'
import { hoursOf, tasksOf } from '../labor/tasks.ts'
import { goodsForExtra } from '../packs/extra-shopping.ts'
import { boughtToPrice, shoppingFor } from '../packs/shopping.ts'
import type { Extra, RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'

/** Price = cost × (1 + markup) = cost ÷ (1 − margin): what a cost is multiplied by. */
export function plusFactor(table: Pick<RateTable, 'costPlus'>): Decimal {
  const { by, value } = put(table)
  return by === 'markup' ? value : one.div(value)
}

/** The same, and before it the overhead that is a share of all other costs. */
export function priceFactor(table: Pick<RateTable, 'costPlus' | 'costs'>): Decimal {
  return plusFactor(table).times(one.plus(figureOf(table.costs.overheadShare)))
}

/** How the price of a finish comes about by what buying it and laying it cost, at the middle of every rate. */
export function priceByCost(finish: FinishQuantities, quantities: JobQuantities, table: RateTable): Factors {
  const bought = factor(boughtToPrice(finish.finish.slug, quantities, table), 'money', { is: 'bought' })
  return plus([[bought], [layingHours(finish, table), hourOf(table)]], table)
}

/** How the price of an extra comes about by what its material and its labor cost, at the middle of its hours. */
export function extraByCost(extra: Extra, job: Job, quantities: JobQuantities, table: RateTable): Factors {
  const { shown, units, unitsPer } = extraQuantity(extra, job, quantities, table)
  const bought = factor(goodsForExtra(extra, job, quantities, table), 'money', { is: 'bought' })
  const amount = shown ? [factor(units, shown.unit, { per: unitsPer })] : []
  const hours = middleOf(extra.laborHours)
  const labor = [...amount, factor(hours, 'h'), hourOf(table)]
  const parts = [...(bought.value.isZero() ? [] : [[bought]]), ...(hours.isZero() ? [] : [labor])]
  return plus(parts.length > 0 ? parts : [[bought]], table)
}

/** The labor hours of extras that are priced by cost. */
function extraHours(job: Job, quantities: JobQuantities, table: RateTable): Decimal {
  return sumOf(
    extrasOf(job, table)
      .filter(({ pricedBy }) => pricedBy === 'cost')
      .map(extra => {
        const { units, unitsPer } = extraQuantity(extra, job, quantities, table)
        return units.times(middleOf(extra.laborHours)).div(unitsPer)
      }),
  )
}

/**
 * How what a job with a finish priced by cost comes to before its first bed comes about: the truck, setting up, the drive,
 * and what is missing to the least hours.
 */
export function setUpByCost(job: Job, quantities: JobQuantities, table: RateTable): Factors {
  const { costs, labor } = table
  const hours = [factor(middleOf(labor.setUp), 'h'), ...hoursAround(job, quantities, table)]
  const atHour = hours.map(one => [one, hourOf(table)])
  return plus([[factor(costs.truckPerJob, 'money')], ...truckOf(job, quantities, table), ...atHour], table)
}

/** Whether what a job costs besides its beds depends on how long it takes. */
export function dependsOnHours({ postcode }: Job, table: RateTable): boolean {
  return Number(table.labor.least) > 0 || driveTo(postcode, table).hours.gt(0) || isTruckApart(table)
}

// By the hour it is in every labor hour already.
function isTruckApart({ costs }: RateTable): boolean {
  return costs.truckBy !== 'hour' && Number(costs.truckEach) > 0
}

// Only hours that are charged here lessen what is missing to the least: else an extra with a rate of its own could lower
// the price. Nor do trips, of which there may be fewer for more.
function hoursAround(job: Job, quantities: JobQuantities, table: RateTable): Factor[] {
  if (!dependsOnHours(job, table)) return []
  const drive = hoursOf(allTasks(job, quantities, table).filter(({ task }) => task === 'drive'))
  const byCost = quantities.finishes.filter(({ finish }) => finish.pricedBy === 'cost')
  const laid = byCost.map(finish => layingHours(finish, table)).map(({ value, per }) => value.div(per))
  const extras = extraHours(job, quantities, table)
  const charged = sumOf([...laid, extras, middleOf(table.labor.setUp), drive])
  const missing = Decimal.max(zero, new Decimal(table.labor.least).minus(charged))
  return [factor(drive, 'h', { is: 'drive' }), factor(missing, 'h', { is: 'missing' })].filter(({ value }) =>
    value.gt(0),
  )
}

function truckOf(job: Job, quantities: JobQuantities, table: RateTable): Factor[][] {
  const { truckBy, truckEach } = table.costs
  if (!isTruckApart(table)) return []
  const units = truckUnits(hoursOf(allTasks(job, quantities, table)), job.postcode, table)
  const is = truckBy === 'day' ? 'days' : 'driven'
  return units.isZero() ? [] : [[factor(units, 'number', { is }), factor(truckEach, 'money')]]
}

function allTasks(job: Job, quantities: JobQuantities, table: RateTable) {
  return tasksOf(job, quantities, shoppingFor(job, quantities, table).trips, table)
}

function layingHours({ slowed }: FinishQuantities, table: RateTable): Factor {
  const per = unitSystem(table.units).volumesPerBulk
  return factor(slowed.times(middleOf(table.labor.spread)), 'h', { per })
}

function hourOf(table: RateTable): Factor {
  return factor(laborHourCost(table) ?? zero, 'money')
}

function plus(sum: Factor[][], table: RateTable): Factors {
  const { by, value } = put(table)
  const share = table.costs.overheadShare
  const overhead = Number(share) > 0 ? [factor(one.plus(share), 'number', { is: 'overhead' })] : []
  const is = [factor(value, 'number', { is: by })]
  return by === 'markup' ? { sum, times: [...overhead, ...is], over: [] } : { sum, times: overhead, over: is }
}

function put({ costPlus: { by, share } }: Pick<RateTable, 'costPlus'>) {
  return { by, value: by === 'markup' ? one.plus(figureOf(share)) : one.minus(figureOf(share)) }
}
