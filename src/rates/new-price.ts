import type { Deps } from '../deps.ts'
import type { Finish, RateTable } from '../estimate/rate-table.ts'
import { rateTableSchema } from '../estimate/rate-table-schema.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { Decimal } from '../money.ts'
import { type PricesGiven, pricesOf, withPrices } from './pack-prices.ts'
import { findRateTable, findVersion } from './queries.ts'
import { makeVersion } from './rates.ts'

/**
 * Makes a new version in which a finish is bought at these prices, and nothing else is different. Gives its number, that
 * of the version that the same form made before, or null when the prices are those in force.
 * @throws {NotFound} when there is no such finish
 * @throws {Conflict} when the version in force isn't `expected` any more: somebody else saved meanwhile
 */
export async function setPrices(
  deps: Deps,
  accountId: number,
  expected: number,
  slug: string,
  given: PricesGiven,
): Promise<number | null> {
  try {
    return await makeVersion(deps, accountId, expected, inForce => {
      const finish = requireFinish(inForce, slug)
      if (holds(finish, given, inForce)) return null
      const finishes = inForce.finishes.map(one => (one === finish ? withPrices(one, given) : one))
      return rateTableSchema.parse({ ...inForce, finishes })
    })
  } catch (error) {
    if (error instanceof Conflict && (await wasMade(deps, expected + 1, slug, given))) return expected + 1
    throw error
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
async function wasMade(deps: Deps, version: number, slug: string, given: PricesGiven): Promise<boolean> {
  const inForce = await findRateTable(deps.db, deps.now())
  const made = await findVersion(deps.db, version)
  return [made, inForce].every(one => {
    const finish = one?.body.finishes.find(other => other.slug === slug)
    return finish !== undefined && holds(finish, given, one!.body)
  })
}

function holds(finish: Finish, given: PricesGiven, { units }: RateTable): boolean {
  return pricesOf(finish, units).every(({ name, each }) => {
    const price = given[name] ?? each
    return price === each || (price !== '' && each !== '' && new Decimal(price).eq(each))
  })
}
