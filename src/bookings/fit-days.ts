import type { Transaction } from 'kysely'
import type { Business } from '../business/queries.ts'
import { findWorkDays, lockWorkDays } from '../days/queries.ts'
import { haveRoom, roomsOf, type Share, shareOut, type WorkDayRow } from '../days/room.ts'
import type { Database } from '../db/schema.ts'
import { Decimal } from '../lib/decimal.ts'
import { giveBackDay } from './give-back-day.ts'
import { findBooking, insertBooking } from './queries.ts'

/**
 * Books the days of a locked request anew for another quote, from the same first day on: what it has of them now counts
 * as free. False, with the days as they were, where there is no room for more.
 */
export async function fitDays(
  trx: Transaction<Database>,
  business: Business,
  quoteRequestId: number,
  quote: { id: number; labor_hours: string },
  at: Temporal.Instant,
): Promise<boolean> {
  const standing = await findBooking(trx, quoteRequestId)
  if (!standing) return true
  const { first_day: firstDay, days } = standing
  const planned = await planShares(trx, business, quote.labor_hours, firstDay, days)
  if (!planned) return false
  const all = [...new Set([...planned, ...days].map(({ day }) => day))]
  await lockWorkDays(trx, all, business.labor_hours_a_day)
  // Rooms may have been changed until they were locked.
  const shares = await planShares(trx, business, quote.labor_hours, firstDay, days)
  if (!shares || shares.some(({ day }) => !all.includes(day))) return false
  await giveBackDay(trx, quoteRequestId, at)
  await insertBooking(trx, { quoteRequestId, quoteId: quote.id, days: shares }, at)
  return true
}

async function planShares(
  trx: Transaction<Database>,
  business: Business,
  laborHours: string,
  firstDay: string,
  own: Share[],
): Promise<Share[] | undefined> {
  const roomOn = roomsOf(business, withoutOwn(await findWorkDays(trx, firstDay), own))
  const shares = shareOut(laborHours, firstDay, business.labor_hours_a_day, roomOn)
  return shares && haveRoom(shares, roomOn) ? shares : undefined
}

function withoutOwn(rows: WorkDayRow[], own: Share[]): WorkDayRow[] {
  return rows.map(row => {
    const mine = own.find(({ day }) => day === row.day)
    return mine ? { ...row, taken_hours: new Decimal(row.taken_hours).minus(mine.hours).toFixed(2) } : row
  })
}
