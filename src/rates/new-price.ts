import type { Deps } from '../deps.ts'
import type { Finish, RateTable } from '../estimate/table/rate-table.ts'
import { rateTableSchema } from '../estimate/table/rate-table-schema.ts'
import { canBePicked } from '../estimate/table/substitutes.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { isSamePrice, type PricesGiven, pricesOf, withPrices } from './pack-prices.ts'
import { findRateTable, findVersionAfter } from './queries.ts'
import { makeVersion } from './rates.ts'

/** What is said of a finish at the yard: its prices, and whether it is sold out for now. */
export interface Today {
  prices: PricesGiven
  soldOut: boolean
}

/** Thrown where a finish is sold out and homeowners could pick none then. */
export class NoneToPick extends Error {}

/**
 * Makes a new version in which a finish is as said, and nothing else is different. Gives its number, that
 * of the version that the same form made before, or null when nothing of it is different.
 * @throws {NotFound} when there is no such finish
 * @throws {NoneToPick} when it is sold out, and so are all others that homeowners are shown
 * @throws {Conflict} when the version in force isn't `expected` any more: somebody else saved meanwhile
 */
export async function setToday(
  deps: Deps,
  accountId: number,
  expected: number,
  slug: string,
  said: Today,
): Promise<number | null> {
  try {
    return await makeVersion(deps, accountId, expected, inForce => {
      const finish = requireFinish(inForce, slug)
      if (holds(finish, said, inForce)) return null
      const { prices, soldOut } = said
      const finishes = inForce.finishes.map(one =>
        one === finish ? { ...withPrices(one, prices), soldOut } : one,
      )
      if (!finishes.some(canBePicked)) throw new NoneToPick()
      return rateTableSchema.parse({ ...inForce, finishes })
    })
  } catch (error) {
    const made = error instanceof Conflict ? await findMade(deps, expected, slug, said) : null
    if (made === null) throw error
    return made
  }
}

/**
 * The finish of a table by its slug.
 * @throws {NotFound} when there is none
 */
export function requireFinish(table: RateTable, slug: string): Finish {
  const finish = table.finishes.find(one => one.slug === slug)
  if (!finish) throw new NotFound()
  return finish
}

// A double tap, a retry or the way back sends the same form twice.
async function findMade(deps: Deps, expected: number, slug: string, said: Today): Promise<number | null> {
  const made = await findVersionAfter(deps.db, expected)
  const inForce = await findRateTable(deps.db, deps.now())
  const isSo = [made, inForce].every(one => {
    const finish = one?.body.finishes.find(other => other.slug === slug)
    return finish !== undefined && holds(finish, said, one!.body)
  })
  return made && isSo ? made.version : null
}

function holds(finish: Finish, { prices, soldOut }: Today, { units }: RateTable): boolean {
  if (soldOut !== finish.soldOut) return false
  return pricesOf(finish, units).every(({ name, each }) => isSamePrice(prices[name] ?? each, each))
}
