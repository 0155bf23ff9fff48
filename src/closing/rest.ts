import type { Transaction } from 'kysely'
import { giveBackDay } from '../bookings/give-back-day.ts'
import { findBooking, insertBooking } from '../bookings/queries.ts'
import { DayGone } from '../bookings/refusals.ts'
import type { Business } from '../business/queries.ts'
import { findWorkDays, lockWorkDays } from '../days/queries.ts'
import { haveRoom, roomsFrom, type Share, shareOut, usualRoom, withoutShares } from '../days/room.ts'
import type { Database } from '../db/schema.ts'

/**
 * Books the rest of a locked job for another day and those after it, beside the days that were worked: what it has booked
 * later than these goes. The database decides who gets the last room.
 * @throws {DayGone} where there is no room, or no work can begin on that day
 */
export async function bookRest(
  trx: Transaction<Database>,
  business: Business,
  { quoteRequestId, quoteId, lastDay }: { quoteRequestId: number; quoteId: number; lastDay: string },
  rest: { day: string; hours: string },
  at: Temporal.Instant,
): Promise<void> {
  const own = (await findBooking(trx, quoteRequestId))?.days ?? []
  const stays = own.filter(({ day }) => day <= lastDay)
  const plan = () => planRest(trx, business, own, rest, at)
  const planned = await plan()
  if (!planned) throw new DayGone()
  const all = [...new Set([...own, ...planned].map(({ day }) => day))]
  await lockWorkDays(trx, all)
  // Rooms may have been changed until they were locked.
  const shares = await plan()
  if (!shares || shares.some(({ day }) => !all.includes(day))) throw new DayGone()
  await giveBackDay(trx, quoteRequestId, at)
  await insertBooking(trx, { quoteRequestId, quoteId, days: [...stays, ...shares] }, at)
}

async function planRest(
  trx: Transaction<Database>,
  business: Business,
  own: Share[],
  { day, hours }: { day: string; hours: string },
  at: Temporal.Instant,
): Promise<Share[] | undefined> {
  const rows = withoutShares(
    await findWorkDays(trx, day, at),
    own.filter(share => share.day >= day),
  )
  const roomOn = roomsFrom(business, rows)(day)
  const shares = shareOut(hours, day, usualRoom(business, day), roomOn)
  return shares && haveRoom(shares, roomOn) ? shares : undefined
}
