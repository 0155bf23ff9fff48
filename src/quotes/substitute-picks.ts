import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Finish } from '../estimate/table/rate-table.ts'
import { substitutesOf } from '../estimate/table/substitutes.ts'
import { type Choices, MOST_PICKS, type Pick } from '../estimate/understood/choices.ts'
import type { Priced } from './pricing.ts'

/** What the yard had no more of for a job, and what its customer may be asked to pick instead; null where nothing can be offered. */
export interface AtYard {
  choices: Choices | null
  /** A sentence each, for the staff. */
  words: string[]
}

/** A change begins with the closest substitute of whatever was sold out at the yard, as a choice beside what was agreed. */
export async function findSoldOutForJob(
  db: Kysely<Database>,
  quoteRequestId: number,
  priced: Priced,
): Promise<AtYard> {
  const rows = await db
    .selectFrom('sold_out_at_yard')
    .select('slug')
    .where('quote_request_id', '=', quoteRequestId)
    .where('of', '=', 'finish')
    .orderBy('slug')
    .execute()
  const table = priced.rates.body
  const isLaid = (slug: string) => priced.job.beds.some(({ finish }) => finish.slug === slug)
  const gone = table.finishes.filter(({ slug }) => isLaid(slug) && rows.some(row => row.slug === slug))
  const offers = gone.map(finish => ({
    finish,
    instead: substitutesOf(finish, table).find(one => !one.soldOut && !gone.includes(one)),
  }))
  const picks = offers
    .flatMap(({ finish, instead }) => (instead ? picksOf(finish, instead, priced) : []))
    .slice(0, MOST_PICKS)
  return {
    choices: picks.length > 0 ? { picks, addOns: [] } : null,
    words: offers.map(({ finish, instead }) =>
      instead
        ? `Sold out at the yard: ${finish.name.en}. Below, the customer may choose ${instead.name.en} instead.`
        : `Sold out at the yard: ${finish.name.en}. It has no substitute in your rates.`,
    ),
  }
}

function picksOf(finish: Finish, instead: Finish, { job }: Priced): Pick[] {
  const own = [...job.beds.entries()].filter(([, bed]) => bed.finish.slug === finish.slug)
  const depths = own.map(([, { depth }]) => depth.toFixed())
  const pick = (bed: number | null, depth: string | undefined, isAlike: boolean): Pick => ({
    ...{ bed, finish: instead.slug, depth: null },
    was: { finish: finish.slug, depth: isAlike ? (depth ?? null) : null },
  })
  if (own.length > 0 && own.length === job.beds.length)
    return [
      pick(
        null,
        depths[0],
        depths.every(depth => depth === depths[0]),
      ),
    ]
  return own.map(([index], nth) => pick(index, depths[nth], true))
}
