import type { FastifyReply, FastifyRequest } from 'fastify'
import { readDay } from '../days/form.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { say } from '../http/flash.ts'
import { languageOf } from '../http/language.ts'
import { type Key, t } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import { FAULT_PARAMS, type Typed } from './form.ts'
import {
  type DaysView,
  type OpenedLink,
  openBookingLink,
  type PriceView,
  viewDays,
  viewPrice,
} from './page.ts'
import { DayGone } from './refusals.ts'

export type LinkRequest = FastifyRequest<{ Params: { token: string } }>

declare module '../http/render.ts' {
  interface Views {
    'bookings/show': { link: OpenedLink; price: PriceView; days: DaysView | null; bookedDays: string[] }
  }
}

/** Messages by field, from their keys, in the visitor's language. */
export function inWords(request: FastifyRequest, errors: Record<string, Key>): Record<string, string> {
  const language = languageOf(request)
  const words = Object.entries(errors).map(([field, key]) => [field, t(language, key, FAULT_PARAMS)])
  return Object.fromEntries(words)
}

/** The page of a booking link as it stands now; `errors` are in words, for what was refused on the way to it. */
export async function showLink(
  deps: Deps,
  request: LinkRequest,
  reply: FastifyReply,
  status = 200,
  errors: Record<string, string> = {},
) {
  const language = languageOf(request)
  const link = await openBookingLink(deps, request.params.token)
  const from = readDay((request.query as Typed).from)
  const days = link.state === 'accepted' ? await viewDays(deps, link, from, language) : null
  const price = await viewPrice(deps, link.quote, language)
  const bookedDays = link.booking?.days.map(({ day }) => dayInWords(day, language, true)) ?? []
  return reply.page('bookings/show', { link, price, days, bookedDays, errors }, status)
}

/** Does what was asked, says so and goes to the link's page; a refusal is shown on that page as it stands then. */
export async function orRefuse(
  deps: Deps,
  request: LinkRequest,
  reply: FastifyReply,
  { path, said, act }: { path: string; said: Key; act: () => Promise<unknown> },
) {
  const language = languageOf(request)
  try {
    await act()
  } catch (error) {
    if (!(error instanceof Conflict)) throw error
    const field = error instanceof DayGone ? 'day' : ''
    return showLink(deps, request, reply, 409, { [field]: t(language, error.key, error.params) })
  }
  say(reply, t(language, said))
  return reply.redirect(path, 303)
}
