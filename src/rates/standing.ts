import type { Transaction } from 'kysely'
import { type Business, findBusiness } from '../business/queries.ts'
import { Kept } from '../db/kept.ts'
import type { Store } from '../db/open.ts'
import type { Database } from '../db/schema.ts'
import type { Deps, Standing } from '../deps.ts'
import { Refusal } from '../http/errors.ts'
import type { Now } from '../lib/dates.ts'
import { deepFreeze } from '../lib/deep-freeze.ts'
import { findInForce, type InForce, type RateTableVersion, requireRateTable } from './queries.ts'

interface StandingNow extends Standing {
  rates: InForce | undefined
}

/** Keeps the rate table in force and the business in memory; one that waits for its day comes in by the clock. */
export function keepStanding(store: Pick<Store, 'db' | 'writes'>, now: Now): Kept<Standing> {
  return new Kept<StandingNow>(store, {
    read: async trx => readStanding(trx, now()),
    holds: ({ rates }) => !rates || isInForce(rates, now),
  })
}

async function readStanding(trx: Transaction<Database>, now: Temporal.Instant): Promise<StandingNow> {
  return deepFreeze({ business: await findBusiness(trx), rates: await findInForce(trx, now) })
}

function isInForce({ from, until }: InForce, now: Now): boolean {
  if (from === null && until === null) return true
  const at = now().epochMilliseconds
  return (from?.epochMilliseconds ?? at) <= at && at < (until?.epochMilliseconds ?? Infinity)
}

/**
 * The rate table in force and the business, for showing.
 * @throws {Refusal} 503 before set-up
 */
export async function requireStanding(deps: Deps): Promise<{ rates: RateTableVersion; business: Business }> {
  const { rates, business } = await deps.standing.read()
  if (!rates || !business) throw new Refusal(503, 'error.not-open')
  return { rates, business }
}

/** One version by its id, as a ballpark or a quote remembers it, for showing: most are of the one in force. */
export async function requireVersion(deps: Deps, id: number): Promise<RateTableVersion> {
  const { rates } = await deps.standing.read()
  return rates?.id === id ? rates : requireRateTable(deps.db, id)
}
