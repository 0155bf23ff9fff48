import { type Earnings, earningsOf, floorsMissed } from '../estimate/price/cost.ts'
import { costWith, workOutPrice } from '../estimate/price/firm-price.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { taxesOf } from '../estimate/tax/tax-on.ts'
import { jobStored } from '../estimate/understood/stored.ts'
import { Decimal } from '../lib/decimal.ts'
import type { JobWithQuote } from './job-queries.ts'

/** What a job costs at some rates and what its own price then leaves; missed are the owner's floors it falls under. */
export interface EarnedAt extends Earnings {
  cost: Decimal
  missed: (keyof Earnings)[]
}

/**
 * What a quoted job costs and earns at the rates of a table, at the price that it was quoted, before tax, and with as
 * many labor hours more or less as the contractor made of them. Null where its cost isn't known, or it can't be read.
 */
export function earnedAt(job: JobWithQuote, table: RateTable): EarnedAt | null {
  const reading = jobStored({ told: job.job, understood: job.understood }, table)
  if (!reading.ok) return null
  const { terms } = job
  const price = workOutPrice(reading.job, table, terms)
  const own = new Decimal(job.labor_hours).minus(job.labor_hours_worked_out)
  const laborHours = Decimal.max(own.plus(price.laborHoursTotal), 0)
  const cost = costWith(laborHours, { job: reading.job, price, terms }, table)
  if (cost === null) return null
  const earnings = earningsOf(netOf(job), cost, laborHours)
  return { ...earnings, cost: new Decimal(cost.total), missed: floorsMissed(earnings, table) }
}

function netOf({ total, tax }: JobWithQuote): Decimal {
  return tax ? new Decimal(total).minus(taxesOf(tax).amount) : new Decimal(total)
}
