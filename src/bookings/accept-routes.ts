import type { FastifyInstance, FastifyReply } from 'fastify'
import { readDay } from '../days/form.ts'
import { readStart, startInWords, startOf } from '../days/start.ts'
import { mondayIn, sayDayBy, weekInWords } from '../days/week.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { FEW_A_MINUTE, MANY_A_MINUTE } from '../http/rate-limits.ts'
import { type Key, keyed, t, translator } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { type TextToAccept, textToAccept } from './accepted-text.ts'
import { acceptAndBook, acceptQuote, type Booked } from './booking.ts'
import { type AcceptForm, NO_DAY, readAcceptance } from './form.ts'
import { findNearChange } from './near-price.ts'
import { type OpenedLink, openBookingLink, type PriceView, viewPrice } from './page.ts'
import { hasPicked, viewPicked, withPicks } from './picks.ts'
import { type LinkRequest, orRefuse, showLink } from './show.ts'
import { type DaysView, findFreeDay, findFreeWeek, isByWeek, viewDays } from './view-days.ts'

declare module '../http/render.ts' {
  interface Views {
    'bookings/accept': { link: OpenedLink; price: PriceView; days: DaysView; noDay: string; values: Typed }
    'bookings/check': {
      link: OpenedLink
      price: PriceView
      days: string[]
      /** The week that is chosen, and by when its day is told; null where it is a day. */
      week: string | null
      /** Whether they are only asked for. */
      asks: boolean
      values: AcceptForm
      shown: TextToAccept
      picked: string[]
    }
  }
}

/** Accepting goes over two pages: the form, and the page to check before it counts. Only the last post changes anything. */
export function acceptRoutes(app: FastifyInstance, deps: Deps): void {
  const reads = { config: { access: 'link' as const, ...MANY_A_MINUTE } }
  const writes = { config: { access: 'link' as const, ...FEW_A_MINUTE } }
  app.get('/b/:token/accept', reads, showAcceptForm)
  app.get('/b/:token/check', reads, backToForm)
  app.post('/b/:token/check', writes, checkAcceptance)
  app.post('/b/:token/accept', writes, accept)

  async function showAcceptForm(request: LinkRequest, reply: FastifyReply) {
    const opened = await openBookingLink(deps, request.params.token)
    const typed = request.query as Typed
    const mayPick = opened.quote.choices !== null && !opened.quote.accepted_at
    if (!mayAccept(opened) || (mayPick && !hasPicked(typed))) return reply.redirect(opened.path, 303)
    return orPickAgain(request, reply, opened, typed, link => showForm(deps, request, reply, link, {}))
  }

  // Picking the other language, or coming back later, asks for the address of a page that only a post can show.
  async function backToForm(request: LinkRequest, reply: FastifyReply) {
    const link = await openBookingLink(deps, request.params.token)
    return reply.redirect(`${link.path}/accept`, 303)
  }

  async function checkAcceptance(request: LinkRequest, reply: FastifyReply) {
    const opened = await openBookingLink(deps, request.params.token)
    if (!mayAccept(opened)) return reply.redirect(opened.path, 303)
    const fields = new FormFields(request.body)
    return orPickAgain(request, reply, opened, fields.typed, link => lookAt(request, reply, link, fields))
  }

  async function lookAt(request: LinkRequest, reply: FastifyReply, link: OpenedLink, fields: FormFields) {
    if (fields.has('change') || fields.has('from')) return showForm(deps, request, reply, link, fields.typed)
    const reading = readAcceptance(fields, translator(languageOf(request)), askedOf(link))
    if (!reading.ok) return showForm(deps, request, reply, link, reading.typed, reading.errors)
    return showCheck(deps, request, reply, link, fields.typed, reading.values)
  }

  async function accept(request: LinkRequest, reply: FastifyReply) {
    const opened = await openBookingLink(deps, request.params.token)
    const fields = new FormFields(request.body)
    return orPickAgain(request, reply, opened, fields.typed, link => acceptAs(request, reply, link, fields))
  }

  async function acceptAs(request: LinkRequest, reply: FastifyReply, link: OpenedLink, fields: FormFields) {
    const reading = readAcceptance(fields, translator(languageOf(request)), askedOf(link))
    if (!reading.ok && !mayAccept(link)) return reply.redirect(link.path, 303)
    if (!reading.ok) return showForm(deps, request, reply, link, reading.typed, reading.errors)
    const { day, ...values } = reading.values
    const digest = fields.text('digest')
    const accepted = {
      ...values,
      language: languageOf(request),
      ...(digest === '' ? {} : { digest }),
      picks: fields.text('picks'),
      ...(request.account ? { takenBy: request.account.id } : {}),
    }
    const { id } = link.request
    const { path } = link
    if (day === NO_DAY) {
      const act = () => acceptQuote(deps, id, accepted)
      return orRefuse(deps, request, reply, { path, said: () => saidOf(link), act })
    }
    return orRefuse(deps, request, reply, {
      path,
      said: ({ as }) => SAID[as],
      act: () => acceptAndBook(deps, id, accepted, day),
    })
  }

  // Picks of choices that aren't there any more lead back to the price as it is now.
  async function orPickAgain(
    request: LinkRequest,
    reply: FastifyReply,
    opened: OpenedLink,
    typed: Typed,
    go: (link: OpenedLink) => Promise<FastifyReply>,
  ) {
    try {
      return await go(await withPicks(deps, opened, typed))
    } catch (error) {
      if (!(error instanceof Conflict) || error.key !== 'choose.again') throw error
      return showLink(deps, request, reply, 409, { '': t(languageOf(request), error.key) })
    }
  }
}

const SAID = {
  booked: 'booking.said-booked',
  asked: 'asked.said-accepted',
  week: 'week.said-accepted',
} satisfies Record<Booked['as'], Key>

function mayAccept({ state }: OpenedLink): boolean {
  return state === 'open' || state === 'change'
}

function saidOf({ state, depositFirst }: OpenedLink): Key {
  if (state === 'change') return keyed('change.said')
  return keyed(depositFirst ? 'deposit.said-accepted' : 'booking.said-accepted')
}

function askedOf(link: OpenedLink) {
  return { choosesDay: mayChoose(link), choosesWeek: isByWeek(link), needsOrder: link.needsOrder }
}

// A change keeps the day that is booked.
function mayChoose({ state, depositFirst }: OpenedLink): boolean {
  return state !== 'change' && !depositFirst
}

async function showForm(
  deps: Deps,
  request: LinkRequest,
  reply: FastifyReply,
  link: OpenedLink,
  values: Typed,
  errors: Errors = {},
) {
  const language = languageOf(request)
  const days = await viewDaysFor(deps, link, values, language)
  const price = await viewPrice(deps, link.quote, language)
  const status = Object.keys(errors).length > 0 ? 422 : 200
  return reply.page('bookings/accept', { link, price, days, noDay: NO_DAY, values, errors }, status)
}

/** The days asked for, else the first ones; or those about the day chosen, where it is not among the first. */
async function viewDaysFor(deps: Deps, link: OpenedLink, values: Typed, language: Language) {
  const asked = await viewDays(deps, link, readDay(values.from), language)
  const chosen = mondayIn(values.day ?? '') ? values.day : readStart(values.day)
  if (values.from !== undefined || !chosen || asked.shown.some(({ day }) => day === chosen)) return asked
  return viewDays(deps, link, mondayIn(chosen) ?? startOf(chosen).day, language)
}

async function showCheck(
  deps: Deps,
  request: LinkRequest,
  reply: FastifyReply,
  link: OpenedLink,
  typed: Typed,
  values: AcceptForm,
) {
  const language = languageOf(request)
  if (values.revision !== link.quote.revision) {
    return showLink(deps, request, reply, 409, { '': t(language, 'booking.newer-revision') })
  }
  const monday = mondayIn(values.day)
  const free = monday || values.day === NO_DAY ? null : await findFreeDay(deps, link, values.day)
  if (free === undefined || (monday && !(await findFreeWeek(deps, link, monday)))) {
    const gone = t(language, monday ? 'week.full' : 'booking.day-gone')
    return showForm(deps, request, reply, link, typed, { day: gone })
  }
  const days = (free?.shares ?? []).map(share => startInWords(share, language, true))
  const week = monday ? weekToCheck(link, monday, language) : null
  const change = free
    ? await findNearChange(deps, link.request.id, link.quote, values.day, language)
    : undefined
  const price = await viewPrice(deps, change?.quote ?? link.quote, language)
  const shown =
    change?.shown ?? (await textToAccept(deps, link.request.id, language, link.quote.picked ?? ''))!
  const picked = await viewPicked(deps, link.quote, language)
  const asks = link.business.day_choice === 'ask' && !free?.isOffered
  return reply.page('bookings/check', { link, price, days, week, asks, values, shown, picked })
}

function weekToCheck({ business }: OpenedLink, monday: string, language: Language): string {
  const words = weekInWords(monday, language)
  const day = dayInWords(sayDayBy(business, monday), language)
  return t(language, 'week.check-value', { week: words.charAt(0).toUpperCase() + words.slice(1), day })
}
