import { startInWords } from '../days/start.ts'
import type { translator } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import type { OpenedLink } from './page.ts'
import { weekOf } from './week-words.ts'

/** How a price stands, as its paper says it: a line each. */
export function standsInWords(
  link: OpenedLink,
  holdsUntil: string,
  language: Language,
  say: ReturnType<typeof translator>,
): string[] {
  const { state, quote, booking } = link
  const days = booking?.days.map(share => startInWords(share, language, true)) ?? []
  const week = weekOf(booking, language)
  switch (state) {
    case 'open':
    case 'change':
      return [say('booking.holds', { day: holdsUntil })]
    case 'accepted':
      return [say('booking.accepted', { name: quote.typed_name ?? '' })]
    case 'booked':
      return days.length === 1
        ? [say('booking.booked-on', { day: days[0]! })]
        : [say('booking.booked-from'), ...days]
    case 'asked':
      return [
        say('booking.accepted', { name: quote.typed_name ?? '' }),
        say('paper.asked', { days: days.join('; ') }),
      ]
    case 'week':
      return [
        say('booking.accepted', { name: quote.typed_name ?? '' }),
        ...(week
          ? [say('week.paper', { week: week.words }), say('week.stands-next', { day: week.sayBy })]
          : []),
      ]
    case 'lapsed':
      return [say('booking.lapsed', { day: holdsUntil })]
    case 'not taken':
      return [say('booking.declined')]
    case 'closed':
      return [say('booking.closed')]
  }
}
