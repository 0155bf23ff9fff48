import { isDeepStrictEqual } from 'node:util'
import type { Transaction } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import { json } from '../db/json.ts'
import type { Conditions } from '../db/schema/payments.ts'
import type { Database } from '../db/schema.ts'
import { isUniqueViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import type { Terms } from '../estimate/job/terms.ts'
import type { Choices } from '../estimate/understood/choices.ts'
import { Conflict } from '../http/errors.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { cents } from '../lib/decimal.ts'
import { recordHistory } from '../requests/history.ts'
import { findLinkPath, replaceLink } from '../requests/links.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { lockQuoteRequest, moveTo, refusalAt } from '../requests/stage.ts'
import { sameChoices } from './choices-form.ts'
import { type ComposedLine, isAdjustable, type LinesWanted } from './compose-lines.ts'
import { type ComposedQuote, composeQuote } from './compose-quote.ts'
import { sameConditions } from './conditions-form.ts'
import { type Priced, priceRequest } from './pricing.ts'
import {
  findAcceptedQuote,
  findQuote,
  insertQuote,
  insertVariants,
  newestRevision,
  requirePriceable,
} from './queries.ts'
import { insertShares, sharesOf } from './stop-shares.ts'
import { sameTerms } from './terms-form.ts'
import { everyVariant, variantRow } from './variants.ts'
import { findSeen, inBoth, whyOf } from './why.ts'

export interface QuoteWanted extends LinesWanted {
  /** The revision that this is to become: one more than the newest that was seen. */
  revision: number
  /** What the sums that were seen were worked out from; null takes whatever holds now. */
  basis: string | null
  /** Decimal hours; null leaves them as worked out. */
  laborHours: string | null
  note: string
  /** Why the price is what it is, in the contractor's own words; null tells it from the figures. */
  why: string | null
  terms: Terms
  /** Whether it was meant to change what was accepted; not asked about unless told. */
  asChange?: boolean | undefined
  /** What the homeowner may choose; nothing unless told. */
  choices?: Choices | null
  /** A deposit, and time to cancel; nothing unless told. */
  conditions?: Conditions | null
}

export interface QuoteMade {
  revision: number
  /** True when the very same quote was there already, so that nothing was done. */
  repeated: boolean
}

/**
 * Makes the next revision of a request's quote from its beds and the rates in force, with a booking link and the
 * mail that brings it.
 * @throws {Conflict} when another revision came first, the beds or rates changed, the stage allows no quote, the one before
 *   was accepted meanwhile, or a change to booked work changes nothing
 */
export async function makeQuote(
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  wanted: QuoteWanted,
): Promise<QuoteMade> {
  try {
    return await deps.db
      .transaction()
      .execute(trx => makeQuoteIn(trx, deps, accountId, quoteRequestId, wanted))
  } catch (error) {
    if (isUniqueViolation(error, 'quote_quote_request_id_revision_key')) throw new Conflict('error.again')
    throw error
  }
}

async function makeQuoteIn(
  trx: Transaction<Database>,
  deps: Deps,
  accountId: number,
  quoteRequestId: number,
  wanted: QuoteWanted,
): Promise<QuoteMade> {
  const now = deps.now()
  const locked = await lockQuoteRequest(trx, quoteRequestId)
  const { number } = locked
  if (wanted.revision !== (await newestRevision(trx, quoteRequestId)) + 1)
    return sameAsBefore(trx, quoteRequestId, number, wanted)
  const request = await requirePriceable(trx, quoteRequestId)
  if (locked.stage === 'week chosen') throw refusalAt(locked)
  if (locked.stage === 'day asked') throw new Conflict('quote.day-asked', { number })
  if (wanted.asChange === false && (await findAcceptedQuote(trx, quoteRequestId)))
    throw new Conflict('quote.accepted-meanwhile', { number })
  // A change order leaves booked work where it is until it is accepted.
  if (locked.stage !== 'booked') await moveTo(trx, locked, 'quoted', now)
  const priced = await priceRequest(trx, now, request, wanted.terms)
  if (wanted.basis !== null && wanted.basis !== priced.basis) throw new Conflict('quote.basis', { number })
  const business = await requireBusiness(trx)
  const composed = composeQuote(priced, wanted)
  const { lines, tax, total } = composed
  if (locked.stage === 'booked') await refuseUnchanged(trx, quoteRequestId, { priced, composed, wanted })
  const why =
    wanted.why === null ? whyOf(await findSeen(trx, quoteRequestId), priced, composed) : inBoth(wanted.why)
  const { choices = null } = wanted
  const variants = choices && everyVariant(priced, wanted, choices)
  if (choices && !variants) throw new Conflict('choose.together')
  const quoteId = await insertQuote(
    trx,
    {
      quote_request_id: quoteRequestId,
      revision: wanted.revision,
      rate_table_id: priced.rates.id,
      job: json(priced.told),
      understood: json(priced.understood),
      terms: json(wanted.terms),
      tax: tax && json(tax),
      note: wanted.note,
      why: json(why),
      choices: choices && json(choices),
      conditions: wanted.conditions ? json(wanted.conditions) : null,
      total,
      currency: priced.rates.body.currency,
      labor_hours: wanted.laborHours ?? priced.price.laborHoursTotal,
      labor_hours_worked_out: priced.price.laborHoursTotal,
      holds_until: addDays(dayOf(now, business.time_zone), business.quote_holds_days),
      made_by: accountId,
      made_at: now.toString(),
    },
    lines,
  )
  if (variants) await insertVariants(trx, quoteId, variants.map(variantRow))
  else await insertShares(trx, quoteId, sharesOf(priced, lines))
  if (!(await findLinkPath(trx, deps.secretKey, 'booking', quoteRequestId)))
    await replaceLink(trx, deps.secretKey, 'booking', quoteRequestId, now)
  if (!(await findLinkPath(trx, deps.secretKey, 'reading', quoteRequestId)))
    await replaceLink(trx, deps.secretKey, 'reading', quoteRequestId, now)
  const detail = { revision: String(wanted.revision), total, currency: priced.rates.body.currency }
  await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'quoted', now, detail)
  await mailHomeowner(trx, deps, 'quote-ready', quoteRequestId, now)
  return { revision: wanted.revision, repeated: false }
}

// What nobody would have to accept: the same beds, lines, hours, note and conditions as were accepted last.
async function refuseUnchanged(
  trx: Transaction<Database>,
  quoteRequestId: number,
  { priced, composed, wanted }: { priced: Priced; composed: ComposedQuote; wanted: QuoteWanted },
): Promise<void> {
  const before = await findAcceptedQuote(trx, quoteRequestId)
  const said = (lines: Pick<ComposedLine, 'kind' | 'slug' | 'description' | 'amount'>[]) =>
    lines
      .map(({ kind, slug, description, amount }) => [kind, slug, description, cents(amount)].join())
      .join('\n')
  const isSame =
    before &&
    !wanted.choices &&
    said(before.lines) === said(composed.lines) &&
    isDeepStrictEqual(before.understood, JSON.parse(JSON.stringify(priced.understood))) &&
    cents(before.labor_hours) === cents(wanted.laborHours ?? priced.price.laborHoursTotal) &&
    before.note === wanted.note &&
    sameTerms(before.terms, wanted.terms) &&
    sameConditions(before.conditions, wanted.conditions ?? null)
  if (isSame) throw new Conflict('change.none')
}

// A double click, a retry or the way back sends the same form twice; anything else is somebody else's revision.
async function sameAsBefore(
  trx: Transaction<Database>,
  quoteRequestId: number,
  number: string,
  wanted: QuoteWanted,
): Promise<QuoteMade> {
  const before = await findQuote(trx, quoteRequestId, wanted.revision)
  if (!before || !isSame(before, wanted)) throw new Conflict('quote.overtaken', { number })
  return { revision: wanted.revision, repeated: true }
}

function isSame(before: NonNullable<Awaited<ReturnType<typeof findQuote>>>, wanted: QuoteWanted): boolean {
  const workedOut = before.lines.filter(isAdjustable)
  const added = before.lines.filter(line => line.kind === 'other')
  const amounts = wanted.amounts ?? workedOut.map(line => ({ amount: line.worked_out!, reason: '' }))
  return (
    before.note === wanted.note &&
    (wanted.why === null || before.why?.en === wanted.why) &&
    sameTerms(before.terms, wanted.terms) &&
    sameChoices(before.choices, wanted.choices ?? null) &&
    sameConditions(before.conditions, wanted.conditions ?? null) &&
    cents(before.labor_hours) === cents(wanted.laborHours ?? before.labor_hours_worked_out) &&
    same(workedOut, amounts) &&
    same(added, wanted.added)
  )
}

function same(lines: Pick<ComposedLine, 'amount'>[], wanted: { amount: string }[]): boolean {
  return (
    lines.length === wanted.length &&
    lines.every((line, index) => cents(line.amount) === cents(wanted[index]!.amount))
  )
}
