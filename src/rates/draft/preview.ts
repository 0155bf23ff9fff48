import { workOutPrice } from '../../estimate/price/firm-price.ts'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { jobStored } from '../../estimate/understood/stored.ts'
import { Decimal } from '../../lib/decimal.ts'
import type { PastRequest } from './past-requests.ts'

/** What a past request comes to at its own version and at two tables; null where its beds can't be read with that one. */
export interface Compared {
  number: string
  name: string
  own: string | null
  inForce: string | null
  draft: string | null
  difference: string | null
}

/** The sums of those that every table can price, and how many they are. difference is from in force to the draft. */
export interface Preview {
  rows: Compared[]
  priced: number
  own: string
  inForce: string
  draft: string
  difference: string
}

/** Works past requests out at the versions they were priced with and at two tables: each and their sums, to the cent. */
export function comparePast(past: PastRequest[], before: RateTable, after: RateTable): Preview {
  const rows = past.map(request => {
    const [own, inForce, draft] = [
      totalOf(request, request.table),
      totalOf(request, before),
      totalOf(request, after),
    ]
    const difference = inForce !== null && draft !== null ? less(draft, inForce) : null
    return { number: request.number, name: request.name, own, inForce, draft, difference }
  })
  const priced = rows.filter(({ own, difference }) => own !== null && difference !== null)
  const sumOf = (at: 'own' | 'inForce' | 'draft') => sum(priced.map(row => row[at]!))
  const [own, inForce, draft] = [sumOf('own'), sumOf('inForce'), sumOf('draft')]
  return { rows, priced: priced.length, own, inForce, draft, difference: less(draft, inForce) }
}

function totalOf({ beds, terms }: PastRequest, table: RateTable): string | null {
  const reading = jobStored(beds, table)
  return reading.ok ? workOutPrice(reading.job, table, terms).total : null
}

function less(now: string, before: string): string {
  return new Decimal(now).minus(before).toFixed(2)
}

function sum(amounts: string[]): string {
  return amounts.reduce((total, amount) => total.plus(amount), new Decimal(0)).toFixed(2)
}
