import type { Kysely } from 'kysely'
import { daysToSay } from '../bookings/week.ts'
import type { Business } from '../business/queries.ts'
import { startInWords } from '../days/start.ts'
import { mondayOf, weekInWords, weekText } from '../days/week.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords, shortDate } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { dayOf } from '../lib/dates.ts'

const MOST_SHOWN = 40

/** A week that a homeowner chose, whose day is to be said. */
export interface WeekView {
  number: string
  who: string
  hours: string
  /** As its forms carry it (see weekText). */
  week: string
  /** Which week, and by when its day is to be said. */
  words: string
  sayBy: string
  late: boolean
  /** The days that may be said, the one that it is penciled in for first; `lasts` is the last day of a longer job. */
  days: { day: string; words: string; lasts: string | null; isPenciled: boolean }[]
}

/** Every week that waits for its day, the one to be said first before the others; of one request alone by its id. */
export async function viewWeeks(
  deps: Deps,
  business: Business,
  language: Language,
  id?: number,
): Promise<WeekView[]> {
  const today = dayOf(deps.now(), business.time_zone)
  const rows = await findWeeks(deps.db, id)
  return Promise.all(
    rows.map(async row => {
      const week = weekInWords(mondayOf(row.first_day), language)
      const late = row.say_by < today
      const day = dayInWords(row.say_by, language)
      const free = await daysToSay(deps.db, business, row.id, deps.now())
      const days = free.map(({ day, shares }) => ({
        day,
        words: startInWords({ day }, language),
        lasts: shares.length > 1 ? shortDate(shares.at(-1)!.day, language) : null,
        isPenciled: day === row.first_day,
      }))
      return {
        number: row.number,
        who: [row.name, row.street, row.postcode].filter(Boolean).join(', '),
        hours: t(language, 'days.hours', { hours: figureInWords(row.labor_hours, language) }),
        week: weekText(mondayOf(row.first_day)),
        words: t(language, late ? 'days.say-late' : 'days.say-by', { week: sentence(week), day }),
        sayBy: row.say_by,
        late,
        days: days.sort((one, other) => Number(other.isPenciled) - Number(one.isPenciled)),
      }
    }),
  )
}

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1)
}

async function findWeeks(db: Kysely<Database>, id: number | undefined) {
  return db
    .selectFrom('booking')
    .innerJoin('quote_request', 'quote_request.id', 'booking.quote_request_id')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .innerJoin('quote', 'quote.id', 'booking.quote_id')
    .select(['quote_request.id', 'quote_request.number', 'booking.first_day', 'quote.labor_hours'])
    .select(['customer.name', 'place.street', 'place.postcode'])
    .select(({ ref }) => ref('booking.say_by').$notNull().as('say_by'))
    .where('booking.called_off_at', 'is', null)
    .where('booking.say_by', 'is not', null)
    .$if(id !== undefined, query => query.where('quote_request.id', '=', id!))
    .orderBy('booking.say_by')
    .orderBy('quote_request.number')
    .limit(MOST_SHOWN)
    .execute()
}
