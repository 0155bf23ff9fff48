import type { Finish, RateTable } from '../table/rate-table.ts'
import { type OptionsFor, optionsFor } from './choices.ts'
import type { TripCost } from './leanest.ts'
import { centsIn, moneyIn } from './money.ts'
import { type Finder, finderOf } from './together.ts'
import { type Trips, tripsOver } from './trips.ts'

/** What it takes to buy finishes that ride together: what each may be bought in, and what is best of all of it. */
export interface Buyers {
  trips: Trips
  options: OptionsFor[]
  find: Finder
}

/** What a trip costs at least and at most, in money, and whether goods are paid in whole cents. */
export interface Paying extends TripCost {
  inCents: boolean
}

interface Kept extends Buyers {
  finishes: Finish[]
  inCents: boolean
}

/** For so many sets of finishes it is kept at most what they may be bought in by one table. */
const MOST_SETS = 6

const known = new WeakMap<RateTable, Kept[]>()

/** Buyers of these finishes by a table; what they find out is kept for the next job of the same finishes. */
export function buyersOf(finishes: Finish[], table: RateTable, paying: Paying): Buyers {
  const sets = known.get(table) ?? []
  known.set(table, sets)
  const found = sets.findIndex(
    kept =>
      kept.inCents === paying.inCents &&
      kept.finishes.length === finishes.length &&
      kept.finishes.every((finish, index) => finish === finishes[index]),
  )
  const [kept] = found < 0 ? [newBuyers(finishes, table, paying)] : sets.splice(found, 1)
  sets.unshift(kept!)
  if (sets.length > MOST_SETS) sets.pop()
  return kept!
}

function newBuyers(finishes: Finish[], table: RateTable, paying: Paying): Kept {
  const trips = tripsOver(finishes, table, !paying.inCents)
  const money = paying.inCents ? centsIn(table) : moneyIn(table)
  const options = finishes.map((finish, index) => optionsFor(finish, index, trips, paying, table, money))
  return { finishes, inCents: paying.inCents, trips, options, find: finderOf(trips, table) }
}
