import { Decimal, middleOf, sumOf } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extraQuantity, extrasOf } from '../job/extras.ts'
import type { JobQuantities } from '../job/quantities.ts'
import { amountSold } from '../job/sold-factors.ts'
import { daysOf, driveTo } from '../labor/coming.ts'
import { laborHourCost } from '../labor/labor-hour.ts'
import type { Task } from '../labor/tasks.ts'
import { crewOf } from '../table/crew.ts'
import type { RateTable, Span } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import type { Figures } from './figures.ts'

/** How the labor hours of every task come about, and their sum. */
export function laborSteps(
  job: Job,
  quantities: JobQuantities,
  trips: Decimal,
  tasks: Task[],
  table: RateTable,
  f: Figures,
): string[] {
  const { labor } = table
  const taskHours = (task: string) => new Decimal(tasks.find(one => one.task === task)?.hours ?? '0')
  const hoursOf = (task: string) => f.hours(taskHours(task))
  const total = sumOf(tasks.map(({ hours }) => new Decimal(hours)))
  const asked = extrasOf(job, table).map(extra => {
    const { units, unitsPer } = extraQuantity(extra, job, quantities, table)
    const amount = f.plain(units.div(unitsPer))
    return `${extra.name.en}: ${amount} ${unitWords(extra.per, table)} × ${rate(extra.laborHours, f)} = ${hoursOf(extra.slug)}`
  })
  const known = (task: string) => tasks.some(one => one.task === task)
  return [
    `Spreading: ${layingSteps(quantities, table, f)} × ${rate(labor.spread, f)} = ${hoursOf('spread')}`,
    ...asked,
    ...(known('trip') ? [`Picking up: ${f.trips(trips)} × ${rate(labor.trip, f)} = ${hoursOf('trip')}`] : []),
    ...(known('set-up') ? [`Setup: ${rate(labor.setUp, f)}, once`] : []),
    ...(known('drive')
      ? [`Driving: ${driveSteps(job, taskHours('drive'), table, f)} = ${hoursOf('drive')}`]
      : []),
    ...(known('least') ? [`Missing to the least, ${f.hours(labor.least)}: ${hoursOf('least')}`] : []),
    `Total ${f.hours(total)}`,
    ...clockStep(total, table, f),
  ]
}

function driveSteps({ postcode }: Job, drive: Decimal, table: RateTable, f: Figures): string {
  const { hours } = driveTo(postcode, table)
  const { size } = crewOf(table)
  const often = drive.div(hours).div(size)
  const people = size.eq(1) ? '' : ` × ${f.plain(size)} people`
  return `${f.days(often)} × ${f.hours(hours)} there and back${people}`
}

/** What a labor hour costs; none where that is one wage and its overhead, which need no telling. */
export function laborHourSteps(table: RateTable, f: Figures): string[] {
  const { costs, people } = table
  const cost = laborHourCost(table)
  const { size, workers } = crewOf(table)
  const truck = costs.truckBy === 'hour' && Number(costs.truckEach) > 0
  if (cost === null || (people.length === 0 && !truck)) return []
  const paid = workers.map(({ count, wage, burden }) =>
    [
      count.eq(1) ? '' : `${f.plain(count)} × `,
      f.money(wage),
      burden.isZero() ? '' : ` × ${f.plain(burden.plus(1), 4)}`,
    ].join(''),
  )
  const crew = [...paid, ...(truck ? [`${f.money(costs.truckEach)} for the truck`] : [])].join(' + ')
  const overhead =
    Number(costs.overheadPerLaborHour) === 0 ? '' : ` + ${f.money(costs.overheadPerLaborHour)} of overhead`
  return [`A labor hour costs (${crew}) ÷ ${f.plain(size)}${overhead} = ${f.money(cost.toDecimalPlaces(4))}`]
}

function clockStep(total: Decimal, table: RateTable, f: Figures): string[] {
  const { size } = crewOf(table)
  if (size.eq(1)) return []
  const clock = f.hours(total.div(size))
  return [
    `On the clock: ${f.hours(total)} ÷ ${f.plain(size)} people = ${clock}, ${f.days(daysOf(total, table))}`,
  ]
}

function layingSteps({ finishes, inPlace }: JobQuantities, table: RateTable, f: Figures): string {
  const { volumesPerBulk } = unitSystem(table.units)
  const slowed = sumOf(finishes.map(finish => finish.slowed))
  // Hours are told for a volume, beside what each material is sold in.
  const sold = finishes.some(({ finish }) => finish.saleUnit !== 'volume')
  const volume = f.bulk(inPlace.div(volumesPerBulk))
  const bulk = sold ? `${amountsInWords(finishes, table, f)} (${volume})` : volume
  if (slowed.eq(inPlace)) return bulk
  return `${bulk}, which takes as long as ${f.bulk(slowed.div(volumesPerBulk))},`
}

// Of one material its amount alone.
function amountsInWords(finishes: JobQuantities['finishes'], table: RateTable, f: Figures): string {
  const amounts = finishes.map(({ finish, inPlace }) => ({
    name: finish.name.en.toLowerCase(),
    amount: f.factor(amountSold(inPlace, finish, table)),
  }))
  return amounts.length === 1
    ? amounts[0]!.amount
    : amounts.map(({ name, amount }) => `${amount} of ${name}`).join(' + ')
}

// Of two hours, the middle is what a firm price is worked out with.
function rate(hours: Span, f: Figures): string {
  const middle = f.plain(middleOf(hours), 4)
  return hours.lower === hours.upper ? `${middle} h` : `${middle} h (${hours.lower} to ${hours.upper})`
}

function unitWords(per: RateTable['extras'][number]['per'], table: RateTable): string {
  const us = table.units === 'us'
  switch (per) {
    case 'job':
      return 'job'
    case 'bed':
      return 'beds'
    case 'area':
      return us ? 'ft²' : 'm²'
    case 'edge':
      return us ? 'ft' : 'm'
    case 'volume':
    case 'lying':
      return us ? 'yd³' : 'm³'
    default:
      return per satisfies never
  }
}
