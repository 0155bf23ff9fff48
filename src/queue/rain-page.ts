import { daysForRain, type RainChoice, suggestRain } from '../bookings/plan-rain.ts'
import { findRainJobs, type JobOnDay } from '../bookings/rain.ts'
import { requireBusiness } from '../business/queries.ts'
import { findWorkDays } from '../days/queries.ts'
import { withoutShares } from '../days/room.ts'
import type { Deps } from '../deps.ts'
import { findTickets, outsideTicket } from '../job-sheets/dig-ticket.ts'
import { dayInWords, shortDate } from '../language/dates-in-words.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { telephone } from '../lib/contact-links.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { Decimal, sumOf } from '../lib/decimal.ts'
import { findBreaking } from '../orders/breaks.ts'

/** The jobs of a day with where each may go, as the owner chooses before anything is sent. */
export interface RainPage {
  day: string
  words: string
  key: string
  jobs: {
    field: string
    number: string
    name: string
    place: string
    hours: string
    /** By what they hear of it: email, text, or nothing but a call. */
    told: string
    /** The orders that moving it breaks. */
    breaks: string[]
    to: string
    options: { value: string; label: string }[]
  }[]
}

export async function viewRain(
  deps: Deps,
  day: string,
  key: string,
  chosen?: RainChoice[],
): Promise<RainPage> {
  const business = await requireBusiness(deps.db)
  const jobs = await findRainJobs(deps.db, day)
  const rows = await findWorkDays(deps.db, day, deps.now())
  const ids = jobs.map(({ quoteRequestId }) => quoteRequestId)
  const tickets = await findTickets(deps.db, ids)
  const today = dayOf(deps.now(), business.time_zone)
  const from = today > day ? today : addDays(day, 1)
  const lifted = withoutShares(
    rows,
    jobs.flatMap(job => job.rest),
  )
  const makeup = new Set(rows.filter(row => row.is_makeup).map(row => row.day))
  const suggested = suggestRain(business, rows, jobs, from)
  const breaking = await findBreaking(
    deps,
    jobs.map(({ quoteRequestId }) => quoteRequestId),
  )
  const find = (choices: RainChoice[] | undefined, { bookingId }: JobOnDay) =>
    choices?.find(choice => choice.bookingId === bookingId)
  return {
    day,
    words: dayInWords(day, 'en'),
    key,
    jobs: jobs.map(job => {
      const { to } = find(chosen, job) ?? find(suggested, job) ?? { to: null }
      const days = daysForRain(business, lifted, job, { from })
      return {
        field: `to.${job.bookingId}`,
        number: job.number,
        name: job.name,
        place: [job.street, job.postcode].filter(Boolean).join(', '),
        hours: hoursInWords(job),
        told: job.email ? 'Told by email' : telephone(job.phone) ? 'Told by text' : 'Please call them',
        breaks: job.stays.length > 0 ? [] : (breaking.get(job.quoteRequestId) ?? []),
        to: to ?? 'stays',
        options: [
          ...days.map(one => ({
            value: one,
            label:
              shortDate(one) +
              (makeup.has(one) ? ' (makeup day)' : '') +
              outsideTicket(tickets.get(job.quoteRequestId), one),
          })),
          { value: 'stays', label: 'Leave it on this day' },
        ],
      }
    }),
  }
}

function hoursInWords({ stays, rest }: JobOnDay): string {
  const hours = figureInWords(sumOf(rest.map(share => new Decimal(share.hours))).toFixed(), 'en')
  const days = rest.length === 1 ? '' : ` over ${rest.length} days`
  return `${hours} labor hours${days}${stays.length > 0 ? ', the rest of a longer job' : ''}`
}
