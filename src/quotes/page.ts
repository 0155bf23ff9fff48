import type { FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Stage } from '../db/schema/stages.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { seesCosts } from '../http/roles.ts'
import { requireAccount } from '../http/signed-in.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import { moneyInWords, rangeInWords } from '../language/money-in-words.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { firmNotes } from '../places/firm-words.ts'
import { findFirm } from '../places/firms.ts'
import { exemptForJob, findJobCertificate, jobCertificateInWords } from '../places/job-certificate.ts'
import { type CautionView, viewCautions } from '../requests/caution-view.ts'
import { type RequestRow, requireRequest } from '../requests/queries.ts'
import { mayBeQuoted, refusalAt } from '../requests/stage.ts'
import { buyingFigures, loadWarnings } from './buying-figures.ts'
import { type ChoicesAsked, choiceEffects, choicesAsked } from './choices-asked.ts'
import { type ComposedQuote, composeQuote } from './compose-quote.ts'
import { type ConditionsAsked, conditionsAsked } from './conditions-form.ts'
import { type CrewField, crewFields } from './crew-form.ts'
import { type Effect, effectsOf } from './effects.ts'
import { type FigureView, moneyFigures, quantityFigures } from './figures.ts'
import type { QuoteReading } from './form.ts'
import { linesShown } from './lines-shown.ts'
import { type Priced, priceRequest } from './pricing.ts'
import { findAcceptedQuote, findNewestQuote } from './queries.ts'
import { soldOutWarnings } from './sold-out.ts'
import { startingPoint } from './starting-point.ts'
import { type PriceByStop, priceByStop } from './stop-shares.ts'
import { findSoldOutForJob } from './substitute-picks.ts'
import { certificateWarning, settledLines, type TaxAsked, taxAsked } from './tax-view.ts'
import { arePlain, TERMS } from './terms-form.ts'
import { aboveRange, findSeen, whyOf } from './why.ts'

export interface QuotePage {
  number: string
  customer: string
  place: string
  basis: string
  revision: number
  /** Whether it would change what was accepted. */
  isChange: boolean
  measured: boolean
  range: string | null
  quantities: FigureView[]
  buying: FigureView[]
  /** Whether costs are missing that whoever looks could put in. */
  asksForCosts: boolean
  earnings: FigureView[]
  costs: FigureView[]
  lines: { what: string; quantity: string | null; workedOut: string; was: string; changed: boolean }[]
  /** A discount or surcharge, and tax: what follows from the terms. */
  settledLines: { what: string; amount: string }[]
  tax: TaxAsked | null
  termsOpen: boolean
  cautions: CautionView[]
  /** Who may come, and whether that is another crew than usual. */
  crew: CrewField[]
  crewOpen: boolean
  /** All there is to mind, each once. */
  warnings: string[]
  /** The total and what it earns in one sentence, to be heard; null while it can’t be told. */
  said: string | null
  addedRows: number
  workedOutTotal: string
  /** Of the amounts as typed; null while some can't be read. */
  total: string | null
  laborHoursWorkedOut: string
  holdsUntil: string
  /** The lines as typed by stop; null of a job without any, and while they can't be told. */
  byStop: PriceByStop | null
  /** What each change does to the total, and for whoever sees costs to margin and pay. */
  effects: Effect[]
  choices: ChoicesAsked
  conditions: ConditionsAsked
  /** What each choice does, by itself. */
  choiceEffects: Effect[]
  /** The sentence from the figures that the field was filled with, and what it would be by now, where that is another. */
  whyWas: string
  whyNow: string | null
  inSpanish: boolean
  /** Reasons for a change, to be picked. */
  reasons: string[]
  values: Record<string, string>
}

/**
 * The form in which a quote is confirmed or adjusted, with what was typed when it is shown again; to a script that
 * follows the typing, with faults too, as it takes from it what can be told.
 */
export async function showQuoteForm(
  deps: Deps,
  reply: FastifyReply,
  number: string,
  again?: QuoteReading,
  isLive = false,
): Promise<FastifyReply> {
  const wanted = await requireRequest(deps.db, number)
  refuseStage(wanted)
  const business = await requireBusiness(deps.db)
  const newest = await findNewestQuote(deps.db, wanted.id)
  const today = dayOf(deps.now(), business.time_zone)
  const firm = await findFirm(deps.db, wanted.customer_head_id)
  const settled = again?.wanted.terms ?? newest?.terms
  const certificate = await findJobCertificate(deps.db, wanted.id)
  const exempt = exemptForJob(certificate, firm, today)
  const priced = await priceRequest(deps.db, deps.now(), wanted, settled, exempt)
  const seen = await findSeen(deps.db, wanted.id)
  const atYard = await findSoldOutForJob(deps.db, wanted.id, priced)
  const asIs = again ?? startingPoint(priced, newest, '', atYard.choices)
  const composed = composeReadable(priced, asIs)
  const why = composed ? whyOf(seen, priced, composed)[wanted.customer_language] : ''
  const reading = again ?? startingPoint(priced, newest, why, atYard.choices)
  const total = composed && moneyInWords(composed.total, business.currency, 'en')
  const hasCosts = seesCosts(requireAccount(reply.request))
  const money = moneyFigures(priced, composed?.net ?? null, reading.wanted.laborHours, hasCosts)
  const data: QuotePage = {
    number,
    customer: wanted.customer_name,
    place: [wanted.street, wanted.postcode].filter(Boolean).join(', '),
    basis: priced.basis,
    revision: (newest?.revision ?? 0) + 1,
    isChange: (await findAcceptedQuote(deps.db, wanted.id)) !== undefined,
    measured: wanted.measured !== null,
    range:
      wanted.low !== null && wanted.high !== null
        ? rangeInWords(wanted.low, wanted.high, business.currency)
        : null,
    quantities: quantityFigures(priced),
    buying: buyingFigures(priced, hasCosts),
    ...money,
    cautions: viewCautions(priced.job, priced.price.shopping, priced.rates.body),
    warnings: [
      ...new Set([
        ...firmNotes(firm, today),
        ...(certificate ? [jobCertificateInWords(certificate, today)!] : []),
        ...money.warnings,
        ...aboveRange(seen, composed, business.currency),
        ...atYard.words,
        ...soldOutWarnings(priced.told, priced.rates.body),
        ...certificateWarning(priced),
        ...loadWarnings(priced),
      ]),
    ],
    said: total && saidOf(total, money.earnings),
    settledLines: composed ? settledLines(composed, priced) : [],
    tax: taxAsked(priced.rates.body),
    termsOpen: termsOpen(priced, reading),
    crew: crewFields(priced.rates.body),
    crewOpen: priced.terms.crew !== undefined || Object.keys(reading.errors).some(isCrew),
    ...linesShown(priced, reading, hasCosts || business.show_rates),
    byStop: composed && priceByStop(priced, composed.lines),
    effects: composed ? effectsOf(priced, reading.wanted, hasCosts) : [],
    conditions: conditionsAsked(
      business,
      reading.wanted.conditions ?? null,
      composed?.total ?? null,
      reading.errors,
    ),
    choices: choicesAsked(priced, reading.wanted.choices ?? null, reading.errors),
    choiceEffects: composed
      ? choiceEffects(priced, reading.wanted, reading.wanted.choices ?? null, hasCosts)
      : [],
    ...whyShown(why, reading, isLive),
    inSpanish: wanted.customer_language === 'es',
    reasons: REASONS,
    total,
    holdsUntil: dayInWords(
      addDays(dayOf(deps.now(), business.time_zone), business.quote_holds_days),
      'en',
      true,
    ),
    values: reading.typed,
  }
  const { errors } = reading
  const status = Object.keys(errors).length === 0 || isLive ? 200 : 422
  return reply.page('quotes/price', { ...data, errors, scripts: ['price.js'] }, status)
}

const REASONS = [
  'Hard to reach',
  'Steep slope',
  'Weeds to clear first',
  'Good customer',
  'Made up for last time',
  'Slow week',
]

// Left alone, the field follows the figures; under a script it can't, so the new sentence is told beside it.
function whyShown(now: string, { typed, wanted }: QuoteReading, isLive: boolean) {
  if (wanted.why !== null) return { whyWas: now, whyNow: null }
  if (isLive) return { whyWas: typed.whyWas ?? now, whyNow: (typed.whyWas ?? now) === now ? null : now }
  typed.why = now
  return { whyWas: now, whyNow: null }
}

/** Null while a field can’t be read, or the lines come to less than nothing. */
function composeReadable(priced: Priced, { errors, wanted }: QuoteReading): ComposedQuote | null {
  if (Object.keys(errors).some(field => field !== '')) return null
  const composed = composeQuote(priced, wanted)
  return Number(composed.total) < 0 ? null : composed
}

function saidOf(total: string, earnings: FigureView[]): string {
  const said = earnings.map(({ label, value, unit = '' }) => `${label}: ${value}${unit}`)
  return [`Total: ${total}`, ...said].join('. ')
}

/**
 * What a quote may be made of: the request at a stage that a quote can follow.
 * @throws {Conflict} otherwise, saying what is in the way
 */
function refuseStage({ stage, number }: RequestRow) {
  if (stage === 'booked' || mayBeQuoted(stage)) return
  if (stage === 'day asked' || stage === 'visit set')
    throw new Conflict(stage === 'visit set' ? 'quote.visit-set' : 'quote.day-asked', { number })
  const taken: Stage[] = ['part done', 'done', 'paid']
  throw taken.includes(stage) ? new Conflict('quote.taken', { number }) : refusalAt({ stage, number })
}

function isCrew(field: string): boolean {
  return field.startsWith('crew.')
}

function termsOpen({ terms }: Priced, { errors }: QuoteReading): boolean {
  return !arePlain(terms) || TERMS.some(name => errors[name])
}
