import type { Kysely } from 'kysely'
import type { PackOf } from '../db/schema/goods.ts'
import type { Database } from '../db/schema.ts'
import type { Job } from '../estimate/job/bed.ts'
import type { Shopping } from '../estimate/packs/shopping.ts'
import { workOutPrice } from '../estimate/price/firm-price.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { jobStored } from '../estimate/understood/stored.ts'
import type { Decimal } from '../lib/decimal.ts'
import { findAcceptedQuote, type QuoteWithLines } from '../quotes/queries.ts'
import { requireRateTable } from '../rates/queries.ts'

/** A job as it was accepted last, at the rates of then, with what it was to buy. */
export interface AgreedJob {
  quote: QuoteWithLines
  job: Job
  table: RateTable
  shopping: Shopping
}

/** Undefined where nothing was accepted, or its beds can't be read any more. */
export async function findAgreedJob(
  db: Kysely<Database>,
  quoteRequestId: number,
): Promise<AgreedJob | undefined> {
  const quote = await findAcceptedQuote(db, quoteRequestId)
  if (!quote) return undefined
  const { body: table } = await requireRateTable(db, quote.rate_table_id)
  const reading = jobStored({ told: quote.job, understood: quote.understood }, table)
  if (!reading.ok) return undefined
  const { shopping } = workOutPrice(reading.job, table, quote.terms)
  return { quote, job: reading.job, table, shopping }
}

/** So many of a pack, which is '' where the rates list none: then in yd³|m³ to order, or in what the extra's cost is per. */
export interface PackPlanned {
  of: PackOf
  slug: string
  pack: string
  units: Decimal
}

/** What a job was to take of each pack, in the order of its materials and extras. */
export function packsPlanned({ shopping }: Pick<AgreedJob, 'shopping'>): PackPlanned[] {
  const finishes = shopping.finishes.flatMap(({ finish: { slug }, need, buying }): PackPlanned[] => {
    const parts = buying?.taken.parts.filter(({ way }) => way !== null) ?? []
    if (parts.length === 0) return [{ of: 'finish', slug, pack: '', units: need }]
    return parts.map(({ way, units }) => ({ of: 'finish', slug, pack: way!.pack.slug, units }))
  })
  const extras = shopping.extras.flatMap(({ extra: { slug }, buying }) =>
    (buying?.taken.parts ?? []).flatMap(({ way, units, material }): PackPlanned[] =>
      way || material.gt(0) ? [{ of: 'extra', slug, pack: way?.pack.slug ?? '', units }] : [],
    ),
  )
  return together([...finishes, ...extras])
}

// Of one pack some may be delivered and the rest fetched.
function together(packs: PackPlanned[]): PackPlanned[] {
  const found = new Map<string, PackPlanned>()
  for (const pack of packs) {
    const key = [pack.of, pack.slug, pack.pack].join(' ')
    const before = found.get(key)
    found.set(key, before ? { ...before, units: before.units.plus(pack.units) } : pack)
  }
  return [...found.values()]
}
