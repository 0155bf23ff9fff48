import type { Transaction } from 'kysely'
import type { Business } from '../business/queries.ts'
import { findWorkDays, lockWorkDays } from '../days/queries.ts'
import {
  haveRoom,
  onPart,
  roomsFrom,
  roomsOf,
  type Share,
  shareOut,
  usualRoom,
  withoutShares,
} from '../days/room.ts'
import { startOf } from '../days/start.ts'
import type { Database } from '../db/schema.ts'
import { giveBackDay } from './give-back-day.ts'
import { findBooking, insertBooking } from './queries.ts'

/**
 * Books the days of a locked request anew for a quote, from the same start on or from another (see startText): what it has of them
 * now counts as free. Days that were worked stay beside those. False, with the days as they were, where there is no room.
 */
export async function fitDays(
  trx: Transaction<Database>,
  business: Business,
  quoteRequestId: number,
  quote: { id: number; labor_hours: string },
  at: Temporal.Instant,
  { newStart, worked = [] }: { newStart?: string; worked?: Share[] } = {},
): Promise<boolean> {
  const standing = await findBooking(trx, quoteRequestId)
  if (!standing) return true
  const { days } = standing
  const starts = { start: newStart ?? standing.start, mayGrow: newStart === undefined }
  const plan = () => planShares(trx, business, quote.labor_hours, { ...starts, own: days, at })
  const planned = await plan()
  if (!planned) return false
  const all = [...new Set([...planned, ...days].map(({ day }) => day))]
  await lockWorkDays(trx, all)
  // Rooms may have been changed until they were locked.
  const shares = await plan()
  if (!shares || shares.some(({ day }) => !all.includes(day))) return false
  await giveBackDay(trx, quoteRequestId, at)
  await insertBooking(trx, { quoteRequestId, quoteId: quote.id, days: [...worked, ...shares] }, at)
  return true
}

async function planShares(
  trx: Transaction<Database>,
  business: Business,
  laborHours: string,
  { start, mayGrow, own, at }: { start: string; mayGrow: boolean; own: Share[]; at: Temporal.Instant },
): Promise<Share[] | undefined> {
  const { day: firstDay, part } = startOf(start)
  const rows = withoutShares(await findWorkDays(trx, firstDay, at), own)
  // Work that rain moved may lie on makeup days already.
  const isOnMakeup = rows.some(row => row.is_makeup && own.some(({ day }) => day === row.day))
  const roomOn = isOnMakeup ? roomsOf(business, rows, 'counted') : roomsFrom(business, rows)(firstDay)
  const shares = shareOut(laborHours, firstDay, usualRoom(business, firstDay), roomOn)
  const onHalf = shares && onPart(shares, part)
  if (onHalf && haveRoom(onHalf, roomOn)) return onHalf
  // Work that has grown out of its half of the day has the day.
  return mayGrow && shares && haveRoom(shares, roomOn) ? shares : undefined
}
