import { randomUUID } from 'node:crypto'
import { sql } from 'kysely'
import { bookDay } from '../../src/bookings/booking.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import type { TestApp } from '../helpers/app.ts'
import { acceptedRequest, askedRequest, weekRequest } from '../helpers/bookings.ts'
import { mine, type Race } from './race.ts'
import type { Sent } from './two-services.ts'

const [TUESDAY, WEDNESDAY, THURSDAY] = ['2026-04-07', '2026-04-08', '2026-04-09'] as const
const WEEK = 'week 2026-03-23'

type Job = Awaited<ReturnType<typeof acceptedRequest>>

/** What may be done about the day of a job. */
const formsOf = async (app: TestApp, cookie: string, { id, number, path }: Job) => {
  const own = await findLinkPath(app.db, app.deps.secretKey, 'own page', id)
  const staff = (does: string, form: Record<string, string>): Sent => ({
    ...{ path: `/queue/${number}/${does}`, cookie },
    form,
  })
  return {
    choose: (day: string): Sent => ({ path: `${path}/day`, form: { day } }),
    book: (day: string) => staff('day', { day }),
    moveOwn: (from: string, day: string): Sent => ({ path: `${own}/day`, form: { from, day } }),
    move: (from: string, newDay: string) => staff('move', { from, newDay }),
    say: (weekDay: string) => staff('week', { week: WEEK, weekDay }),
    confirm: (asked: string) => staff('day/confirm', { asked }),
    decline: (asked: string) => staff('day/decline', { asked, offered: '' }),
    cancel: { path: `${own}/call-off`, form: { reason: 'Moving' } } as Sent,
  }
}
const accepted = async (app: TestApp, cookie: string, email: string) =>
  formsOf(app, cookie, await acceptedRequest(app, '0.25', mine(email)))
const booked = async (app: TestApp, cookie: string, email: string, day: string) => {
  const job = await acceptedRequest(app, '0.25', mine(email))
  await bookDay(app.deps, job.id, day)
  return { ...(await formsOf(app, cookie, job)), id: job.id }
}
const asked = async (app: TestApp, cookie: string, email: string) =>
  formsOf(app, cookie, await askedRequest(app, '0.25', '2026-03-25', mine(email)))
const penciled = async (app: TestApp, cookie: string, email: string) =>
  formsOf(app, cookie, await weekRequest(app, '0.25', WEEK, mine(email)))

/** Leaves room for one more quarter of an hour on a day. */
async function leaveOne({ db }: TestApp, day: string): Promise<void> {
  await sql`
    insert into work_day (day, room_hours) values (${day}, 0.25)
    on conflict (day) do update set room_hours = work_day.taken_hours + work_day.visit_hours + 0.25`.execute(
    db,
  )
}

const BY_HOMEOWNER = {
  ...{ stages: ['booked'], booked: 1, history: ['day booked'] },
  outbox: ['day-booked', 'day-booked-staff'],
}
const BY_STAFF = { ...BY_HOMEOWNER, outbox: ['day-booked'] }
const MOVED = { stages: ['booked'], history: ['work moved'], outbox: ['day-moved'] }
const MOVED_OWN = { ...MOVED, outbox: ['day-moved', 'day-moved-staff'] }
const CANCELED = {
  ...{ stages: ['called off'], history: ['called off'] },
  outbox: ['called-off-staff', 'canceled'],
}

/** Choosing the day of the work, moving and canceling it, and what room there is for it. */
export const DAY_RACES: Race[] = [
  {
    name: 'two homeowners choosing the last room of a day',
    forms: async (app, cookie, email) => {
      await leaveOne(app, TUESDAY)
      const both = [await accepted(app, cookie, email), await accepted(app, cookie, email)]
      return both.map(({ choose }) => choose(TUESDAY))
    },
    onlyOne: true,
    outcomes: [
      ['booked', 'quoted'],
      ['quoted', 'booked'],
    ].map(stages => ({ ...BY_HOMEOWNER, stages })),
  },
  {
    name: 'a homeowner choosing a day, and the staff booking another',
    forms: async (app, cookie, email) => {
      const { choose, book } = await accepted(app, cookie, email)
      return [choose(WEDNESDAY), book(THURSDAY)]
    },
    onlyOne: true,
    outcomes: [BY_HOMEOWNER, BY_STAFF],
  },
  {
    name: 'moving work, by the homeowner and by the staff',
    forms: async (app, cookie, email) => {
      const { moveOwn, move } = await booked(app, cookie, email, WEDNESDAY)
      return [moveOwn(WEDNESDAY, THURSDAY), move(WEDNESDAY, '2026-04-10')]
    },
    onlyOne: true,
    outcomes: [MOVED, MOVED_OWN],
  },
  {
    name: 'two homeowners moving to the last room of a day',
    forms: async (app, cookie, email) => {
      await leaveOne(app, TUESDAY)
      const both = [WEDNESDAY, THURSDAY].map(async from =>
        (await booked(app, cookie, email, from)).moveOwn(from, TUESDAY),
      )
      return Promise.all(both)
    },
    onlyOne: true,
    outcomes: [{ ...MOVED_OWN, stages: ['booked', 'booked'] }],
  },
  {
    name: 'the staff moving work while the homeowner cancels',
    forms: async (app, cookie, email) => {
      const { move, cancel } = await booked(app, cookie, email, WEDNESDAY)
      return [move(WEDNESDAY, THURSDAY), cancel]
    },
    outcomes: [
      { ...CANCELED, booked: -1 },
      {
        ...{ ...CANCELED, booked: -1, history: ['called off', 'work moved'] },
        outbox: ['called-off-staff', 'canceled', 'day-moved'],
      },
    ],
  },
  {
    name: 'moving a day’s work for rain while the homeowner moves it',
    forms: async (app, cookie, email) => {
      const { id, moveOwn } = await booked(app, cookie, email, '2026-04-15')
      const booking = app.db
        .selectFrom('booking')
        .select('id')
        .where('quote_request_id', '=', id)
        .where('called_off_at', 'is', null)
      const to = `to.${(await booking.executeTakeFirstOrThrow()).id}`
      const form = { key: randomUUID(), [to]: '2026-04-16' }
      return [{ path: '/days/2026-04-15/rain', form, cookie }, moveOwn('2026-04-15', '2026-04-17')]
    },
    onlyOne: true,
    outcomes: [MOVED_OWN, { ...MOVED, history: ['moved for rain'], outbox: ['rain-moved'] }],
  },
  {
    name: 'saying one day of a week that was chosen and another',
    forms: async (app, cookie, email) => {
      const { say } = await penciled(app, cookie, email)
      return [say('2026-03-24'), say('2026-03-26')]
    },
    onlyOne: true,
    // It is penciled in already.
    outcomes: [{ ...BY_STAFF, booked: 0 }],
  },
  {
    name: 'saying the day of a week while the homeowner cancels',
    forms: async (app, cookie, email) => {
      const { say, cancel } = await penciled(app, cookie, email)
      return [say('2026-03-24'), cancel]
    },
    outcomes: [
      { ...CANCELED, booked: -1 },
      {
        ...{ ...CANCELED, booked: -1, history: ['called off', 'day booked'] },
        outbox: ['called-off-staff', 'canceled', 'day-booked'],
      },
    ],
  },
  {
    name: 'confirming a day that was asked for, and declining it',
    forms: async (app, cookie, email) => {
      const { confirm, decline } = await asked(app, cookie, email)
      return [confirm('2026-03-25'), decline('2026-03-25')]
    },
    onlyOne: true,
    outcomes: [
      { ...BY_STAFF, booked: 0 },
      { stages: ['quoted'], booked: -1, history: ['day declined'], outbox: ['day-declined'] },
    ],
  },
  {
    name: 'confirming a day while the homeowner cancels',
    forms: async (app, cookie, email) => {
      const { confirm, cancel } = await asked(app, cookie, email)
      return [confirm('2026-03-25'), cancel]
    },
    outcomes: [
      { ...CANCELED, booked: -1 },
      {
        ...{ ...CANCELED, booked: -1, history: ['called off', 'day booked'] },
        outbox: ['called-off-staff', 'canceled', 'day-booked'],
      },
    ],
  },
  {
    name: 'closing a day while its first work is booked',
    forms: async (app, cookie, email) => {
      const day = '2026-04-21'
      await clearDays(app, day, day)
      const { choose } = await accepted(app, cookie, email)
      return [choose(day), { path: `/days/${day}/room`, form: { [`room.${day}`]: '0' }, cookie }]
    },
    onlyOne: true,
    outcomes: [BY_HOMEOWNER, { stages: ['quoted'] }],
  },
  {
    name: 'taking days off while work is booked on one of them',
    forms: async (app, cookie, email) => {
      const [from, to] = ['2026-04-27', '2026-04-30']
      await clearDays(app, from, to)
      const { choose } = await accepted(app, cookie, email)
      const off = { 'off.from': from, 'off.to': to, 'off.why': 'Rest' }
      return [choose('2026-04-29'), { path: '/settings/days/off', form: off, cookie }]
    },
    onlyOne: true,
    outcomes: [BY_HOMEOWNER, { stages: ['quoted'] }],
  },
]

/** Days as nobody touched them: what was booked on them is called off. */
async function clearDays({ db, deps }: TestApp, from: string, to: string): Promise<void> {
  await sql`
    with gone as (delete from booking_day where day between ${from} and ${to} returning booking_id)
    update booking set called_off_at = ${deps.now().toString()} where id in (select booking_id from gone)`.execute(
    db,
  )
  await sql`delete from work_day where day between ${from} and ${to}`.execute(db)
}
