import { type Kysely, sql } from 'kysely'
import type { Database } from '../../db/schema.ts'
import { type Before, type Budgets, DAY, HOUR, MINUTES } from '../../junk/budgets.ts'
import { leftOf } from '../../junk/counted.ts'
import { linkToken } from '../../lib/tokens.ts'

/** Of more places than so many those that were counted longest ago are forgotten. */
const MOST_KEPT = 20_000

interface Window {
  counted: string
  seconds: number
}

/**
 * Counts requests in the store, for all processes together: one statement reads, one counts. What is stored are keyed hashes, so a copy of the store alone
 * tells no address.
 */
export class StoredBudgets implements Budgets {
  readonly #db: Kysely<Database>
  readonly #secretKey: string

  constructor(db: Kysely<Database>, secretKey: string) {
    this.#db = db
    this.#secretKey = secretKey
  }

  async before(address: string, network: string, at: number): Promise<Before> {
    const windows = this.#windows(address, network)
    const rows = await this.#db
      .selectFrom('requests_counted')
      .selectAll()
      .where(
        'counted',
        'in',
        Object.values(windows).map(({ counted }) => counted),
      )
      .execute()
    const found = new Map(rows.map(row => [row.counted, row]))
    const came = ({ counted }: Window) => {
      const row = found.get(counted)
      if (!row) return 0
      const begun = Temporal.Instant.from(row.begun).epochMilliseconds
      return leftOf({ begun, count: row.requests, before: row.before }, row.seconds * 1000, at)
    }
    return {
      address: came(windows.address),
      network: came(windows.network),
      minutes: came(windows.minutes),
      day: came(windows.day),
    }
  }

  async add(address: string, network: string | null, at: number): Promise<void> {
    const { address: own, ...others } = this.#windows(address, network ?? '')
    const windows = network === null ? [own] : [own, ...Object.values(others)]
    // In one order, so that two who count the same never wait for each other.
    windows.sort((a, b) => (a.counted < b.counted ? -1 : 1))
    const moment = Temporal.Instant.fromEpochMilliseconds(at).toString()
    const values = windows.map(
      ({ counted, seconds }) => sql`(${counted}, ${seconds}::integer, ${moment}::timestamptz, 1, 0)`,
    )
    const passed = sql`floor(extract(epoch from (excluded.begun - c.begun)) / c.seconds)`
    await sql`
      insert into requests_counted as c (counted, seconds, begun, requests, before) values ${sql.join(values)}
      on conflict (counted) do update set
        requests = case when ${passed} < 1 then c.requests + 1 else 1 end,
        before = case when ${passed} < 1 then c.before when ${passed} < 2 then c.requests else 0 end,
        begun = c.begun + greatest(${passed}, 0) * c.seconds * interval '1 second'`.execute(this.#db)
  }

  #windows(address: string, network: string) {
    const of = (kind: string, place: string, milliseconds: number): Window => ({
      counted: linkToken(this.#secretKey, `requests from ${kind}`, place),
      seconds: milliseconds / 1000,
    })
    return {
      address: of('an address', address, HOUR),
      network: of('a network', network, HOUR),
      minutes: of('everywhere, in minutes', '', MINUTES),
      day: of('everywhere, in a day', '', DAY),
    }
  }
}

/** Forgets what counts no more, and what is more than is kept. */
export async function sweepBudgets(
  db: Kysely<Database>,
  now: Temporal.Instant,
  most = MOST_KEPT,
): Promise<void> {
  await sql`
    delete from requests_counted where begun + 2 * seconds * interval '1 second' < ${now.toString()}::timestamptz
      or counted in (select counted from requests_counted order by begun desc, counted offset ${most})`.execute(
    db,
  )
}
