import { workOutPrice } from '../../estimate/firm-price.ts'
import type { RateTable } from '../../estimate/rate-table.ts'
import { readTold } from '../../estimate/read-beds.ts'
import { Decimal } from '../../money.ts'
import type { PastRequest } from './past-requests.ts'

/** What a past request comes to at two tables; null where its beds can't be read with that one. */
export interface Compared {
  number: string
  name: string
  inForce: string | null
  draft: string | null
  difference: string | null
}

/** The sums of those that both tables can price, and how many they are. */
export interface Preview {
  rows: Compared[]
  priced: number
  inForce: string
  draft: string
  difference: string
}

/** Works past requests out at two tables: each and their sums, to the cent. */
export function comparePast(past: PastRequest[], before: RateTable, after: RateTable): Preview {
  const rows = past.map(request => {
    const [inForce, draft] = [totalOf(request, before), totalOf(request, after)]
    const difference = inForce !== null && draft !== null ? less(draft, inForce) : null
    return { number: request.number, name: request.name, inForce, draft, difference }
  })
  const priced = rows.filter(({ difference }) => difference !== null)
  const [inForce, draft] = [sum(priced.map(row => row.inForce!)), sum(priced.map(row => row.draft!))]
  return { rows, priced: priced.length, inForce, draft, difference: less(draft, inForce) }
}

function totalOf({ told, terms }: PastRequest, table: RateTable): string | null {
  const reading = readTold(told, table)
  return reading.ok ? workOutPrice(reading.job, table, terms).total : null
}

function less(now: string, before: string): string {
  return new Decimal(now).minus(before).toFixed(2)
}

function sum(amounts: string[]): string {
  return amounts.reduce((total, amount) => total.plus(amount), new Decimal(0)).toFixed(2)
}
