import { sql, type Transaction } from 'kysely'
import { json } from '../db/json.ts'
import type { Database } from '../db/schema.ts'
import { Conflict } from '../http/errors.ts'
import { pickedInWords } from '../quotes/choice-words.ts'
import { findVariant, type QuoteWithLines } from '../quotes/queries.ts'
import { insertShares, sharesOfQuote } from '../quotes/stop-shares.ts'
import { requireRateTable } from '../rates/queries.ts'
import { quoteAs } from './picks.ts'

/**
 * Makes a quote what was picked of its choices, in the transaction that accepts it: beds, lines, hours and total, and the
 * beds that the request is priced by from now on. Gives it, with what was picked in words.
 * @throws {Conflict} when that isn't offered
 */
export async function keepPicked(
  trx: Transaction<Database>,
  quote: QuoteWithLines,
  picks: string,
): Promise<{ quote: QuoteWithLines; words: string }> {
  const variant = await findVariant(trx, quote.id, picks)
  if (!variant) throw new Conflict('choose.again')
  await sql`
    update quote set picked = v.picks, job = v.job, understood = v.understood, tax = v.tax, total = v.total,
      labor_hours = v.labor_hours, labor_hours_worked_out = v.labor_hours_worked_out
    from quote_variant v where quote.id = ${quote.id} and v.quote_id = quote.id and v.picks = ${picks}`.execute(
    trx,
  )
  await trx.deleteFrom('quote_line').where('quote_id', '=', quote.id).execute()
  await trx
    .insertInto('quote_line')
    .values(variant.lines.map(line => ({ ...line, quote_id: quote.id })))
    .execute()
  const agreed = { told: variant.job, understood: variant.understood }
  if (picks.includes('1'))
    await trx
      .updateTable('quote_request')
      .set({ agreed: json(agreed) })
      .where('id', '=', quote.quote_request_id)
      .execute()
  const { body: table } = await requireRateTable(trx, quote.rate_table_id)
  const picked = quoteAs(quote, variant)
  await insertShares(trx, quote.id, sharesOfQuote(picked, table))
  return { quote: picked, words: pickedInWords(picked, table, 'en').join('; ') }
}
