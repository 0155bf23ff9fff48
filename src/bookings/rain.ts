import type { Kysely, Transaction } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import { findWorkDays, lockWorkDays } from '../days/queries.ts'
import type { Share } from '../days/room.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { recordHistory } from '../requests/history.ts'
import { mailHomeowner } from '../requests/mail-homeowner.ts'
import { clearUnsuited } from '../requests/unsuited.ts'
import { endPastHolds } from './day-asked.ts'
import { giveBackDays } from './give-back-day.ts'
import { daysOf } from './move.ts'
import { planRain, type RainChoice, type RainJob } from './plan-rain.ts'
import { insertBooking } from './queries.ts'
import { DayGone } from './refusals.ts'

/** A job that has a share of the day that rains. */
export type JobOnDay = RainJob & Awaited<ReturnType<typeof findJobsOnDay>>[number]

/** What was chosen and sent: `key` is that of the form, by which it is sent once. */
export interface RainSent {
  key: string
  day: string
  choices: RainChoice[]
}

/** A chosen day has no room for a job any more. */
export class RainClash extends Conflict {
  readonly bookingIds: number[]

  constructor(bookingIds: number[]) {
    super('moves.rain-clash')
    this.bookingIds = bookingIds
  }
}

/**
 * Moves the jobs of a day for rain, all of them or none, in one transaction: every request and then every day is locked
 * in its order, all shares are taken out and all put in. Each homeowner is told. The same form again changes nothing.
 * @throws {RainClash} when a chosen day has no room
 * @throws {Conflict} when other jobs are on the day than were shown
 */
export async function moveForRain(deps: Deps, accountId: number, sent: RainSent): Promise<void> {
  await endPastHolds(deps)
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const isNew = await insertRainMove(trx, accountId, sent, at)
    if (!isNew) return
    const shown = sent.choices.map(({ bookingId }) => bookingId)
    await lockRequests(trx, shown)
    const jobs = await findRainJobs(trx, sent.day)
    const found = jobs.map(({ bookingId }) => bookingId)
    if ([...found].sort().join() !== [...shown].sort().join()) throw new Conflict('moves.rain-changed')
    const moved = await lockPlanned(trx, jobs, sent, at)
    await giveBackDays(
      trx,
      moved.map(({ job }) => job.bookingId),
      at,
    )
    for (const { job, shares } of moved) {
      const { quoteRequestId, quoteId } = job
      const days = [...job.stays, ...shares]
      await insertBooking(trx, { quoteRequestId, quoteId, days }, at).catch(error => {
        throw error instanceof DayGone ? new RainClash([job.bookingId]) : error
      })
      await clearUnsuited(trx, quoteRequestId)
      const detail = {
        from: daysOf({ days: [...job.stays, ...job.rest] }),
        to: daysOf({ days }),
      }
      await recordHistory(trx, quoteRequestId, { kind: 'staff', accountId }, 'moved for rain', at, detail)
      await mailHomeowner(trx, deps, 'rain-moved', quoteRequestId, at)
    }
  })
}

/** The plan, with every day locked that it takes from or puts to. */
async function lockPlanned(
  trx: Transaction<Database>,
  jobs: JobOnDay[],
  { day, choices }: RainSent,
  at: Temporal.Instant,
) {
  const business = await requireBusiness(trx)
  const plan = async () => {
    const plans = planRain(business, await findWorkDays(trx, day, at), jobs, choices)
    const clashes = plans.filter(({ shares }) => !shares).map(({ job }) => job.bookingId)
    if (clashes.length > 0) throw new RainClash(clashes)
    return plans as { job: JobOnDay; shares: Share[] }[]
  }
  const planned = await plan()
  const days = new Set(
    planned.flatMap(({ job, shares }) => [...job.stays, ...job.rest, ...shares].map(share => share.day)),
  )
  if (days.size === 0) return planned
  await lockWorkDays(trx, [...days])
  // Rooms may have been changed until they were locked.
  const sure = await plan()
  const strays = sure.filter(({ shares }) => shares.some(({ day }) => !days.has(day)))
  if (strays.length > 0) throw new RainClash(strays.map(({ job }) => job.bookingId))
  return sure
}

async function insertRainMove(
  trx: Transaction<Database>,
  accountId: number,
  { key, day }: RainSent,
  at: Temporal.Instant,
): Promise<boolean> {
  const made = await trx
    .insertInto('rain_move')
    .values({ key, day, made_at: at.toString(), made_by: accountId })
    .onConflict(conflict => conflict.column('key').doNothing())
    .returning('key')
    .executeTakeFirst()
  return made !== undefined
}

// In the order of their ids, before any day: whoever moves one of them locks it before its days too.
async function lockRequests(trx: Transaction<Database>, bookingIds: number[]): Promise<void> {
  if (bookingIds.length === 0) return
  await trx
    .selectFrom('quote_request')
    .select('id')
    .where('id', 'in', eb =>
      eb.selectFrom('booking').select('quote_request_id').where('id', 'in', bookingIds),
    )
    .orderBy('id')
    .forUpdate()
    .execute()
}

/** The jobs that have a share of a day, with their shares before it and from it on, in the order of their numbers. */
export async function findRainJobs(db: Kysely<Database>, day: string): Promise<JobOnDay[]> {
  const jobs = await findJobsOnDay(db, day)
  if (jobs.length === 0) return []
  const shares = await db
    .selectFrom('booking_day')
    .select(['booking_id', 'day', 'hours', 'part'])
    .where(
      'booking_id',
      'in',
      jobs.map(({ bookingId }) => bookingId),
    )
    .orderBy('day')
    .execute()
  return jobs.map(job => {
    const own = shares.filter(share => share.booking_id === job.bookingId)
    const plain = own.map(({ day, hours, part }) => ({ day, hours, part }))
    return {
      ...job,
      stays: plain.filter(share => share.day < day),
      rest: plain.filter(share => share.day >= day),
    }
  })
}

async function findJobsOnDay(db: Kysely<Database>, day: string) {
  return (
    db
      .selectFrom('booking')
      .innerJoin('booking_day', 'booking_day.booking_id', 'booking.id')
      .innerJoin('quote_request', 'quote_request.id', 'booking.quote_request_id')
      .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
      .innerJoin('place', 'place.id', 'quote_request.place_id')
      .select(['booking.id as bookingId', 'booking.quote_request_id as quoteRequestId'])
      .select(['booking.quote_id as quoteId', 'quote_request.number'])
      .select(['customer.name', 'customer.phone', 'customer.email', 'place.street', 'place.postcode'])
      .where('booking.called_off_at', 'is', null)
      .where('quote_request.stage', 'in', ['booked', 'part done'])
      // Of what is begun only the rest can be moved.
      .where(({ not, exists, selectFrom }) =>
        not(
          exists(
            selectFrom('job_closing')
              .select('job_closing.id')
              .whereRef('job_closing.quote_request_id', '=', 'quote_request.id')
              .where('job_closing.outcome', '=', 'part done')
              .where('quote_request.stage', '=', 'part done')
              .whereRef('job_closing.last_day', '>=', 'booking_day.day'),
          ),
        ),
      )
      .where('booking_day.day', '=', day)
      .orderBy('quote_request.number')
      .execute()
  )
}
