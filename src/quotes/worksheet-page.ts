import type { FastifyReply } from 'fastify'
import type { Deps } from '../deps.ts'
import type { Told } from '../estimate/job/bed.ts'
import { workOutPrice } from '../estimate/price/firm-price.ts'
import { jobStored } from '../estimate/understood/stored.ts'
import { type Worksheet, worksheetOf } from '../estimate/worksheet/worksheet.ts'
import { Conflict } from '../http/errors.ts'
import { seesCosts } from '../http/roles.ts'
import { requireAccount } from '../http/signed-in.ts'
import { requireRateTable } from '../rates/queries.ts'
import { viewReadBeds } from '../requests/bed-view.ts'
import { type CautionView, viewCautions } from '../requests/caution-view.ts'
import { requireRequest } from '../requests/queries.ts'
import { priceRequest } from './pricing.ts'
import { findNewestQuote } from './queries.ts'

export interface WorksheetPage {
  number: string
  customer: string
  /** What the figures are of: 'revision 2' of the quote, or null for what would be quoted now. */
  quoted: string | null
  rates: number
  /** `stop` names the stop of the first bed there. */
  beds: { stop: string | null; title: string; steps: string[] }[]
  labor: string[]
  /** What it is bought for, charged and costs; null for whoever sees no costs. */
  money: Pick<Worksheet, 'buying' | 'laborHour' | 'price' | 'cost'> | null
  cautions: CautionView[]
}

/**
 * The steps of every figure behind a request's newest quote, with the rates it was made at; before there is one, or
 * where `now` is asked for, of what would be quoted at the rates in force. Without a step that tells money or a rate for whoever
 * sees no costs.
 */
export async function showWorksheet(
  deps: Deps,
  reply: FastifyReply,
  number: string,
  now: boolean,
): Promise<FastifyReply> {
  const wanted = await requireRequest(deps.db, number)
  const quote = now ? undefined : await findNewestQuote(deps.db, wanted.id)
  const { job, told, rates, terms } = quote
    ? await asQuoted(deps, number, quote)
    : await priceRequest(deps.db, deps.now(), wanted)
  const worksheet = worksheetOf(job, rates.body, terms)
  const views = viewReadBeds(job.beds, rates.body, 'en')
  return reply.page('quotes/worksheet', {
    number,
    customer: wanted.customer_name,
    quoted: quote ? `quote ${quote.revision}` : null,
    rates: rates.version,
    beds: worksheet.beds.map((steps, index) => ({
      stop: stopBefore(told, index),
      title: views[index]?.title ?? '',
      steps,
    })),
    labor: worksheet.labor,
    money: seesCosts(requireAccount(reply.request)) ? worksheet : null,
    cautions: viewCautions(job, workOutPrice(job, rates.body, terms).shopping, rates.body),
  })
}

type Quote = NonNullable<Awaited<ReturnType<typeof findNewestQuote>>>

async function asQuoted(deps: Deps, number: string, { job: told, understood, terms, rate_table_id }: Quote) {
  const rates = await requireRateTable(deps.db, rate_table_id)
  const reading = jobStored({ told, understood }, rates.body)
  if (!reading.ok) throw new Conflict('quote.unreadable', { number })
  return { job: reading.job, told, rates, terms }
}

function stopBefore({ beds, stops = [] }: Told, index: number): string | null {
  const stop = beds[index]?.stop
  return stop === undefined || stop === beds[index - 1]?.stop ? null : (stops[stop]?.name ?? null)
}
