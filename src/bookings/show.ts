import type { FastifyReply, FastifyRequest } from 'fastify'
import { readDay } from '../days/form.ts'
import { startInWords } from '../days/start.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { type Key, t } from '../language/catalogue.ts'
import { dayInWords, momentInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import type { Difference } from '../quotes/difference.ts'
import { findLinkPath } from '../requests/links.ts'
import { chargeForBeds } from '../requests/within-budget.ts'
import { findAccepted } from './accepted-text.ts'
import { type AnswerView, viewAnswers } from './answers.ts'
import { mayMoveUntil, mayStillMove } from './move.ts'
import {
  type OpenedLink,
  openBookingLink,
  type PriceView,
  viewConditions,
  viewDifference,
  viewPrice,
  viewQuotedBeds,
} from './page.ts'
import { type ChoicesView, viewChoices, viewPicked, withPicks } from './picks.ts'
import { DayGone } from './refusals.ts'
import { type DaysView, viewDays } from './view-days.ts'
import { weekOf } from './week-words.ts'

export type LinkRequest = FastifyRequest<{ Params: { token: string } }>

declare module '../http/render.ts' {
  interface Views {
    'bookings/show': {
      link: OpenedLink
      price: PriceView
      beds: Awaited<ReturnType<typeof viewQuotedBeds>>
      days: DaysView | null
      bookedDays: string[]
      /** Until when the days asked for are held; null where they aren’t. */
      heldUntil: string | null
      /** How another day is had than the one that is booked. */
      otherDay: string
      /** The week that is booked, and the day by which its day is told. */
      week: { words: string; sayBy: string } | null
      choices: ChoicesView | null
      /** The deposit, and the time to cancel, a line each. */
      conditions: string[]
      /** What was picked of a price that has its answer. */
      picked: string[]
      answers: AnswerView[]
      difference: Difference | null
      hasAccepted: boolean
      /** The address that reads and can't accept; null where there is none. */
      readingLink: string | null
      scripts: string[]
    }
  }
}

/** The page of a booking link as it stands now; `errors` are of what was refused on the way to it. */
export async function showLink(
  deps: Deps,
  request: LinkRequest,
  reply: FastifyReply,
  status = 200,
  errors: Errors = {},
  values: Typed = {},
) {
  const link = await openBookingLink(deps, request.params.token)
  return showOpened(deps, request, reply, link, { status, errors, values })
}

/** The page of a link that was opened, by whichever of the two. */
export async function showOpened(
  deps: Deps,
  request: LinkRequest,
  reply: FastifyReply,
  opened: OpenedLink,
  { status = 200, errors = {}, values = {} }: { status?: number; errors?: Errors; values?: Typed } = {},
) {
  const language = languageOf(request)
  if (status === 200) chargeForBeds(deps, request, reply, opened.quote.job.beds.length)
  const link = await withPicksOrNone(deps, opened, request.query as Typed)
  const from = readDay((request.query as Typed).from)
  const choices = await viewChoices(deps, link, language)
  const picked = choices ? [] : await viewPicked(deps, link.quote, language)
  const days =
    link.state === 'accepted' && !link.onlyReads && !link.depositFirst
      ? await viewDays(deps, link, from, language)
      : null
  const price = await viewPrice(deps, link.quote, language)
  const beds = await viewQuotedBeds(deps, link.quote, language)
  const bookedDays =
    link.state === 'week' ? [] : (link.booking?.days.map(share => startInWords(share, language, true)) ?? [])
  const scripts =
    (link.state === 'open' || link.state === 'change') && !link.onlyReads
      ? ['seen.js', 'copy.js', ...(choices ? ['choose.js'] : [])]
      : ['copy.js']
  const answers = viewAnswers(link.business, language)
  const readingLink = link.onlyReads ? null : await readingAddress(deps, link.request.id)
  const difference = await viewDifference(deps, link, language)
  const hasAccepted = (await findAccepted(deps.db, link.request.id)).length > 0
  const page = {
    link,
    price,
    beds,
    days,
    bookedDays,
    heldUntil: heldInWords(link, language),
    otherDay: otherDayInWords(deps, link, language),
    week: weekOf(link.booking, language),
    choices,
    picked,
    conditions: await viewConditions(deps, link, language),
    answers,
    difference,
    hasAccepted,
    readingLink,
    scripts,
    errors,
    values,
  }
  return reply.page('bookings/show', page, status)
}

// On their own page, which our mails lead to, and which nobody else gets to by this link.
function otherDayInWords(
  deps: Deps,
  { booking, business, onlyReads, request }: OpenedLink,
  language: Language,
): string {
  const mayMove =
    booking &&
    !onlyReads &&
    business.day_choice !== 'ask' &&
    mayStillMove(business, booking.first_day, deps.now())
  if (!mayMove || !request.email) return t(language, 'booking.booked-change')
  return t(language, 'booking.booked-move', {
    day: dayInWords(mayMoveUntil(business, booking.first_day), language),
  })
}

/** The link with what was picked in the address; as it stands where those picks are of other choices. */
export async function withPicksOrNone(deps: Deps, link: OpenedLink, typed: Typed): Promise<OpenedLink> {
  try {
    return await withPicks(deps, link, typed)
  } catch (error) {
    if (error instanceof Conflict) return withPicks(deps, link, {})
    throw error
  }
}

function heldInWords({ booking, business, state }: OpenedLink, language: Language): string | null {
  if (state !== 'asked' || !booking?.held_until) return null
  return momentInWords(booking.held_until, business.time_zone, language)
}

async function readingAddress({ db, secretKey, config }: Deps, id: number): Promise<string | null> {
  const path = await findLinkPath(db, secretKey, 'reading', id)
  return path ? config.publicUrl + path : null
}

/** Does what was asked, says so and goes to the link's page; a refusal is shown on that page as it stands then. */
export async function orRefuse<Done>(
  deps: Deps,
  request: LinkRequest,
  reply: FastifyReply,
  { path, said, act }: { path: string; said: (done: Done) => Key; act: () => Promise<Done> },
) {
  const language = languageOf(request)
  let done: Done
  try {
    done = await act()
  } catch (error) {
    if (!(error instanceof Conflict)) throw error
    const field = error instanceof DayGone ? 'day' : ''
    return showLink(deps, request, reply, 409, { [field]: t(language, error.key, error.params) })
  }
  say(reply, t(language, said(done)))
  return reply.redirect(path, 303)
}
