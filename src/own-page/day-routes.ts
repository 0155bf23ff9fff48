import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify'
import { daysToMoveTo, mayMoveUntil, mayStillMove, moveWork } from '../bookings/move.ts'
import { findNearDays } from '../bookings/near-days.ts'
import { nearSeen, nearWords } from '../bookings/near-price.ts'
import { findBooking, requireBookingRequest } from '../bookings/queries.ts'
import { DayGone } from '../bookings/refusals.ts'
import { sayDayUnsuited } from '../bookings/unsuited.ts'
import type { Business } from '../business/queries.ts'
import { type FreeDay, startsOn } from '../days/room.ts'
import { readStart, startInWords, startOf, startText } from '../days/start.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { languageOf } from '../http/language.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { FEW_A_MINUTE, MANY_A_MINUTE } from '../http/rate-limits.ts'
import { type Key, t, translator } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { hasNear } from '../quotes/near-discount.ts'
import { findNewestQuote } from '../quotes/queries.ts'
import { requireStanding } from '../rates/standing.ts'
import { isUnsuited } from '../requests/unsuited.ts'
import { NO_DAY, readOtherDay } from './day-form.ts'

const DAYS_SHOWN = 10

interface DayPage {
  /** The first day that is booked, as it is carried by the form, and in words. */
  from: string
  booked: string
  /** Whether the owner confirms every day, so that it isn't moved here. */
  asks: boolean
  /** Until when it can be moved, in words; null where it is too late. */
  until: string | null
  days: { value: string; label: string; hint?: string }[]
  /** The days beside which another price is shown (see nearSeen). */
  prices: string
  unsuited: boolean
  ownPath: string
  values: Typed
}

declare module '../http/render.ts' {
  interface Views {
    'own-page/day': DayPage
  }
}

type ByToken = FastifyRequest<{ Params: { token: string } }>

/** Where a homeowner moves the work that is booked, or says that its day doesn't suit. */
export function dayRoutes(
  app: FastifyInstance,
  deps: Deps,
  requireByToken: (request: ByToken) => Promise<number>,
): void {
  app.get('/r/:token/day', { config: { access: 'link', ...MANY_A_MINUTE } }, showDay)
  app.post('/r/:token/day', { config: { access: 'link', ...FEW_A_MINUTE } }, changeDay)

  async function showDay(request: ByToken, reply: FastifyReply) {
    const page = await viewDay(request)
    return page ? reply.page('own-page/day', page) : reply.redirect(ownPath(request), 303)
  }

  async function changeDay(request: ByToken, reply: FastifyReply) {
    const language = languageOf(request)
    const id = await requireByToken(request)
    const fields = new FormFields(request.body)
    const reading = readOtherDay(fields, translator(language))
    if (!reading.ok) return refuse(request, reply, 422, reading.errors, reading.typed)
    const { from, day, words } = reading.values
    const isCall = day === NO_DAY
    try {
      if (isCall) await sayDayUnsuited(deps, id, { from, words })
      else
        await moveWork(
          deps,
          id,
          { from, to: day, language, prices: fields.text('prices') },
          { kind: 'homeowner' },
        )
    } catch (error) {
      if (!(error instanceof Conflict)) throw error
      const key: Key = error instanceof DayGone ? 'moves.day-gone' : error.key
      return refuse(request, reply, 409, { day: t(language, key, error.params) }, fields.typed)
    }
    say(reply, t(language, isCall ? 'moves.said-unsuited' : 'moves.said'))
    return reply.redirect(ownPath(request), 303)
  }

  async function refuse(request: ByToken, reply: FastifyReply, status: number, errors: Errors, typed: Typed) {
    const page = await viewDay(request, typed)
    if (page) return reply.page('own-page/day', { ...page, errors }, status)
    say(reply, t(languageOf(request), 'moves.not-booked'))
    return reply.redirect(ownPath(request), 303)
  }

  async function viewDay(request: ByToken, typed: Typed = {}): Promise<DayPage | undefined> {
    const id = await requireByToken(request)
    const language = languageOf(request)
    const { business } = await requireStanding(deps)
    const standing = await findBooking(deps.db, id)
    const found = await deps.db
      .selectFrom('quote_request')
      .select('stage')
      .where('id', '=', id)
      .executeTakeFirstOrThrow()
    if (!standing || found.stage !== 'booked') return undefined
    const asks = business.day_choice === 'ask'
    const mayMove = !asks && mayStillMove(business, standing.first_day, deps.now())
    const typedStart = readStart(typed.day)
    const from = typedStart && startOf(typedStart).day
    const asked = { from, count: DAYS_SHOWN, makeupDays: 'left out' } as const
    const free = mayMove ? await daysToMoveTo(deps.db, business, id, deps.now(), asked) : []
    const year = standing.first_day.slice(0, 4)
    const near = await nearOn(deps, business, id, free, language)
    const options = free.flatMap(day => {
      const lasts = { day: dayInWords(day.shares.at(-1)!.day, language) }
      const hints = [
        near(day.day)?.words,
        day.shares.length > 1 && t(language, 'booking.lasts-until', lasts),
      ].filter(Boolean)
      return startsOn(day, business).map(start => ({
        value: startText(start),
        label: startInWords(start, language, day.day.slice(0, 4) !== year),
        ...(hints.length > 0 && { hint: hints.join(' · ') }),
        near: near(day.day),
      }))
    })
    const none = t(language, mayMove ? 'moves.none' : 'moves.only-call')
    return {
      from: standing.start,
      booked: startInWords(standing.days[0]!, language),
      asks,
      until: mayMove ? dayInWords(mayMoveUntil(business, standing.first_day), language) : null,
      prices: nearSeen(options.map(({ value, near }) => ({ day: value, near }))),
      days: [...options.filter(({ value }) => value !== standing.start), { value: NO_DAY, label: none }],
      unsuited: await isUnsuited(deps.db, id),
      ownPath: ownPath(request),
      values: typed,
    }
  }
}

/** What moving to each day makes of the price; nothing where a change to it waits for an answer. */
async function nearOn(deps: Deps, business: Business, id: number, free: FreeDay[], language: Language) {
  const quote = await findNewestQuote(deps.db, id)
  if (!quote?.accepted_at || (!business.near_discount && !hasNear(quote))) return () => null
  const request = await requireBookingRequest(deps.db, id)
  const days = free.map(({ day }) => day)
  const near = await findNearDays(deps.db, days, request)
  const words = await nearWords(deps, business, quote, language)
  return (day: string) => words(near.has(day))
}

function ownPath(request: ByToken): string {
  return `/r/${request.params.token}`
}
