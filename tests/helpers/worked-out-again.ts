import type { Kysely } from 'kysely'
import type { Database } from '../../src/db/schema.ts'
import { narrowsUnasked, workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import type { Job } from '../../src/estimate/job/bed.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { recordJob } from '../../src/estimate/understood/record.ts'
import { jobStored, type StoredBeds } from '../../src/estimate/understood/stored.ts'
import { cents, Decimal } from '../../src/lib/decimal.ts'
import { isAdjustable } from '../../src/quotes/compose-lines.ts'
import { composeQuote } from '../../src/quotes/compose-quote.ts'
import { findQuote, type QuoteWithLines } from '../../src/quotes/queries.ts'
import { type RateTableVersion, requireRateTable } from '../../src/rates/queries.ts'

/** What is stored of one ballpark or quote, and the same worked out again from its own beds, terms and version. */
export interface Again {
  of: string
  stored: unknown
  again: unknown
}

type VersionOf = (id: number) => Promise<RateTableVersion>

/** Every stored ballpark, by the method that it names: its range and all its other figures; `versionOf` gives the rates by their id. */
export async function ballparksAgain(
  db: Kysely<Database>,
  versionOf: VersionOf = id => requireRateTable(db, id),
): Promise<Again[]> {
  const rows = await db
    .selectFrom('ballpark')
    .innerJoin('quote_request', 'quote_request.id', 'ballpark.quote_request_id')
    .select(['number', 'told', 'understood', 'rate_table_id', 'method', 'low', 'likely', 'high', 'result'])
    .orderBy('number')
    .execute()
  const all: Again[] = []
  for (const { number, rate_table_id, method, low, likely, high, result, ...beds } of rows) {
    const { body, version } = await versionOf(rate_table_id)
    const job = jobOf(beds, body)
    const again = workOutBallpark(job, body, { method, narrower: narrowsUnasked(job.beds.length) })
    all.push({
      of: `the ballpark of ${number}, at version ${version}`,
      stored: { low, likely, high, result },
      again: { ...moneyOf(again.range), result: JSON.parse(JSON.stringify(again)) },
    })
  }
  return all
}

/** Every stored revision of every quote: its lines, worked out and as asked, its tax, its total and its labor hours. */
export async function quotesAgain(
  db: Kysely<Database>,
  versionOf: VersionOf = id => requireRateTable(db, id),
): Promise<Again[]> {
  const rows = await db
    .selectFrom('quote')
    .select(['quote_request_id', 'revision'])
    .orderBy('quote_request_id')
    .orderBy('revision')
    .execute()
  const all: Again[] = []
  for (const { quote_request_id, revision } of rows) {
    const quote = (await findQuote(db, quote_request_id, revision))!
    const rates = await versionOf(quote.rate_table_id)
    all.push({
      of: `revision ${revision} of request ${quote_request_id}, at version ${rates.version}`,
      stored: {
        total: quote.total,
        tax: quote.tax,
        laborHours: quote.labor_hours_worked_out,
        lines: quote.lines.map(lineOf),
      },
      again: quoteAgain(quote, rates),
    })
  }
  return all
}

// What the contractor made of the lines is stored, and isn't worked out: it is taken as it stands.
function quoteAgain({ job: told, understood: kept, terms, lines }: QuoteWithLines, rates: RateTableVersion) {
  const job = jobOf({ told, understood: kept }, rates.body)
  const understood = recordJob(job, rates.body.units)
  const price = workOutPrice(job, rates.body, terms)
  const asked = (line: QuoteWithLines['lines'][number]) => ({
    amount: line.amount,
    reason: line.reason ?? '',
  })
  const drawn = composeQuote(
    { rates, told, job, understood, price, terms, basis: '' },
    {
      amounts: lines.filter(isAdjustable).map(asked),
      added: lines
        .filter(({ kind }) => kind === 'other')
        .map(line => ({ ...asked(line), description: line.description! })),
    },
  )
  return {
    total: drawn.total,
    tax: drawn.tax,
    laborHours: price.laborHoursTotal,
    lines: drawn.lines.map(lineOf),
  }
}

function lineOf(line: {
  kind: string
  slug?: string | null
  quantity?: string | null
  unit?: string | null
  rate?: string | null
  worked_out?: string | null
  amount: string
}) {
  const { kind, slug, quantity, unit, rate, worked_out, amount } = line
  return {
    kind,
    slug,
    unit,
    quantity: quantity && new Decimal(quantity).toFixed(),
    rate: rate && new Decimal(rate).toFixed(),
    workedOut: worked_out && cents(worked_out),
    amount: cents(amount),
  }
}

function moneyOf({ low, likely, high }: { low: string; likely: string; high: string }) {
  return { low: cents(low), likely: cents(likely), high: cents(high) }
}

function jobOf(beds: StoredBeds, table: RateTable): Job {
  const reading = jobStored(beds, table)
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults))
  return reading.job
}
