import type { Kysely } from 'kysely'
import type { Stage } from '../db/schema/stages.ts'
import type { Database } from '../db/schema.ts'
import { contentsOf, type ExtraPack, type Pack } from '../estimate/table/pack.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { jobStored, withPostcode } from '../estimate/understood/stored.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { Refusal } from '../http/errors.ts'
import { Decimal, zero } from '../lib/decimal.ts'
import { packOf } from '../on-hand/pack-words.ts'
import { findOnHand } from '../on-hand/queries.ts'
import { findRateTable, requireRateTable } from '../rates/queries.ts'
import { boughtApart, buyFor, type ToBuy } from './buy.ts'
import { type OnHandRow, type Take, takeFromOnHand } from './from-on-hand.ts'
import { findGot, findStartingJobs, type Got, type StartingJob } from './queries.ts'
import { type Share, shareOut } from './share-out.ts'
import { amountIn, asSoldIn, isOf, type Wanted, wantedOf, withGot } from './wanted.ts'

/** Of a job that is done nothing is missing any more. */
const TAKES: Stage[] = ['booked', 'part done']

/** A line to buy, with how much of it is for which job. */
export interface LoadLine extends ToBuy {
  shares: Share[]
}

/**
 * What a work day takes: its jobs with all that they want, what was got of it, what is taken from on hand, and what is to be
 * bought, together; saved is what that saves against buying job by job, null until every price is known.
 */
export interface DayLoad {
  day: string
  jobs: StartingJob[]
  /** Of jobs that can't be read with their rates, the numbers. */
  unreadable: string[]
  wanted: Wanted[]
  got: Got[]
  takes: Take[]
  lines: LoadLine[]
  total: Decimal | null
  saved: Decimal | null
}

/**
 * What the days of a range take, worked out one after the other from `today` on: what is on hand is taken by the earlier day
 * first. Days without a job that begins aren't among them.
 * @throws {Refusal} 503 before set-up
 */
export async function findLoads(
  db: Kysely<Database>,
  now: Temporal.Instant,
  range: { today: string; first: string; last: string },
): Promise<{ table: RateTable; loads: DayLoad[] }> {
  const rates = await findRateTable(db, now)
  if (!rates) throw new Refusal(503, 'error.not-open')
  const table = rates.body
  const [from] = [range.today, range.first].sort() as [string, string]
  const jobs = await findStartingJobs(db, from, range.last)
  const got = await findGot(
    db,
    jobs.map(({ id }) => id),
    range.first,
  )
  const tables = await tablesOf(db, jobs)
  let onHand: OnHandRow[] = await findOnHand(db)
  const days = [...new Set([...jobs.map(({ first_day }) => first_day), ...got.map(({ day }) => day)])].sort()
  const loads: DayLoad[] = []
  for (const day of days.filter(day => day >= from && day <= range.last)) {
    const load = loadOf(day, jobs, got, tables, table, day < range.today ? [] : onHand)
    if (day >= range.today) onHand = load.onHand
    if (day >= range.first) loads.push(load)
  }
  return { table, loads }
}

async function tablesOf(db: Kysely<Database>, jobs: StartingJob[]): Promise<Map<number, RateTable>> {
  const tables = new Map<number, RateTable>()
  for (const id of new Set(jobs.map(({ rate_table_id }) => rate_table_id)))
    tables.set(id, (await requireRateTable(db, id)).body)
  return tables
}

function loadOf(
  day: string,
  all: StartingJob[],
  allGot: Got[],
  tables: Map<number, RateTable>,
  table: RateTable,
  onHand: OnHandRow[],
): DayLoad & { onHand: OnHandRow[] } {
  const jobs = all.filter(({ first_day }) => first_day === day)
  const unreadable: string[] = []
  const whole = jobs.flatMap(job => {
    const rates = tables.get(job.rate_table_id)!
    const beds = withPostcode({ told: job.job, understood: job.understood }, job.postcode)
    const reading = jobStored(beds, rates)
    if (!reading.ok) unreadable.push(job.number)
    if (!reading.ok) return []
    const all = wantedOf(job.id, reading.job, rates, job.terms)
    return TAKES.includes(job.stage) ? all : all.map(one => ({ ...one, left: zero }))
  })
  const got = allGot.filter(
    one => one.day === day || one.shares.some(share => jobs.some(({ id }) => id === share.quote_request_id)),
  )
  const wanted = whole.map(one => asSoldIn(one, table)).map(one => lessGot(one, got, table))
  const taken = takeFromOnHand(wanted, onHand, table)
  const bought = buyFor(taken.wanted, table)
  const apart = boughtApart(taken.wanted, table)
  return {
    ...{ day, jobs, unreadable, wanted, got, takes: taken.takes, onHand: taken.rows },
    lines: withShares(bought.lines, taken.wanted),
    total: bought.total,
    saved: bought.total === null || apart === null ? null : apart.minus(bought.total),
  }
}

function lessGot(wanted: Wanted, got: Got[], table: RateTable): Wanted {
  return got
    .filter(({ of, slug }) => isOf(wanted, of, slug))
    .reduce((left, one) => {
      const units = one.shares.find(share => share.quote_request_id === wanted.jobId)?.units
      if (units === undefined) return left
      const amount = amountIn(wanted, packOf(one, table))
      return amount.isZero() ? left : withGot(left, new Decimal(units).times(one.contents).div(amount))
    }, wanted)
}

function withShares(lines: ToBuy[], wanted: Wanted[]): LoadLine[] {
  let left = wanted
  return lines.map(line => {
    const asking = left.filter(one => isOf(one, line.of, line.slug) && one.left.gt(0))
    const out = shareOut(line.units, line.contents, line.pack ?? undefined, asking)
    left = left.map(one => out.wanted[asking.indexOf(one)] ?? one)
    return { ...line, shares: out.shares }
  })
}

/** What one unit of a pack gives; 1 of a material of which no pack is listed. */
export function contentsIn(pack: Pack | ExtraPack | null | undefined, table: RateTable): Decimal {
  return pack ? contentsOf(pack, unitSystem(table.units)) : new Decimal(1)
}
