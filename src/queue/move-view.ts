import { mayCallOff } from '../bookings/call-off.ts'
import { daysToMoveTo } from '../bookings/move.ts'
import { findWorkAhead } from '../bookings/work-ahead.ts'
import type { Business } from '../business/queries.ts'
import { findWorkDays } from '../days/queries.ts'
import { startsOn } from '../days/room.ts'
import { startInWords, startText } from '../days/start.ts'
import type { Deps } from '../deps.ts'
import { findTicket, outsideTicket } from '../job-sheets/dig-ticket.ts'
import { dayOf } from '../lib/dates.ts'
import { findBreaking } from '../orders/breaks.ts'
import type { RequestRow } from '../requests/queries.ts'

const DAYS_OFFERED = 40

/** What moves the work of a request, or ends it: as the page of the request offers it. */
export interface MoveView {
  /** When it begins or goes on, the days to which it can be moved, and the orders that this breaks; null where none is booked. */
  work: {
    from: string
    day: string
    isRest: boolean
    options: { value: string; label: string }[]
    breaks: string[]
  } | null
  /** Whether the homeowner said that the day, or the time of the visit, doesn't suit. */
  unsuited: boolean
  mayCancel: boolean
}

export async function viewMove(deps: Deps, business: Business, wanted: RequestRow): Promise<MoveView> {
  const work = await findWorkAhead(deps.db, wanted.id)
  return {
    work: work
      ? {
          from: work.start,
          day: work.ahead[0]!.day,
          isRest: work.worked.length > 0,
          options: await options(deps, business, wanted.id, work.start),
          breaks: (await findBreaking(deps, [wanted.id])).get(wanted.id) ?? [],
        }
      : null,
    unsuited: wanted.unsuited_at !== null,
    mayCancel: !wanted.junk_at && mayCallOff(wanted.stage),
  }
}

async function options(deps: Deps, business: Business, id: number, now: string) {
  const today = dayOf(deps.now(), business.time_zone)
  const asked = { count: DAYS_OFFERED, makeupDays: 'counted' } as const
  const free = await daysToMoveTo(deps.db, business, id, deps.now(), asked)
  const rows = await findWorkDays(deps.db, today, deps.now())
  const makeup = new Set(rows.filter(row => row.is_makeup).map(row => row.day))
  const { ticket } = await findTicket(deps.db, id)
  const starts = free.flatMap(day => startsOn(day, business, 'staff'))
  return starts
    .map(start => ({
      value: startText(start),
      label: `${startInWords(start, 'en')}${makeup.has(start.day) ? ' (makeup day)' : ''}${outsideTicket(ticket, start.day)}`,
    }))
    .filter(({ value }) => value !== now)
}
