import { type Kysely, sql, type Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import { isUniqueViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import { Conflict } from '../http/errors.ts'
import { addDays, dayOf } from '../lib/dates.ts'
import { Decimal, sumOf } from '../lib/decimal.ts'
import { DAYS_AHEAD } from './room.ts'

/** Further than anybody can book. */
const LOOKED_AHEAD = DAYS_AHEAD + 62

/** Somebody who works, with their labor hours on each weekday, Monday first; `id` is null of who is new. */
export interface CrewMember {
  id: number | null
  name: string
  hours: string[]
}

/** More is booked on these days than they would have room for. */
export class CrewTooSmall extends Conflict {
  readonly days: string[]

  constructor(days: string[]) {
    super('days.work-on-days-off')
    this.days = days
  }
}

/** Everybody who works, by name. */
export async function findCrew(db: Kysely<Database>) {
  return db.selectFrom('crew_member').selectAll().orderBy('name').execute()
}

/** The days off of who works that end on a day or later. */
export async function findCrewOff(db: Kysely<Database>, from: string, last?: string) {
  return db
    .selectFrom('crew_member_off')
    .innerJoin('crew_member', 'crew_member.id', 'crew_member_id')
    .select(['crew_member_off.id', 'crew_member_id', 'name', 'from_day', 'to_day'])
    .where('to_day', '>=', from)
    .$if(last !== undefined, query => query.where('from_day', '<=', last!))
    .orderBy('from_day')
    .orderBy('name')
    .execute()
}

/**
 * Keeps who works and their hours; `out` are the ids of those taken out. The room of coming days follows at once, but
 * for what was set by hand.
 * @throws {CrewTooSmall} when more is booked on a day than it would have
 * @throws {Conflict} when somebody of the same name is there, or somebody was taken out meanwhile
 */
export async function keepCrew(deps: Deps, crew: CrewMember[], out: number[]): Promise<void> {
  await changeRoom(deps, async trx => {
    if (out.length > 0) await trx.deleteFrom('crew_member').where('id', 'in', out).execute()
    for (const { id, name, hours } of crew) {
      if (id === null) {
        await trx.insertInto('crew_member').values({ name, hours }).execute()
        continue
      }
      const kept = await trx
        .updateTable('crew_member')
        .set({ name, hours })
        .where('id', '=', id)
        .returning('id')
        .executeTakeFirst()
      if (!kept) throw new Conflict('error.again')
    }
  })
}

/** Gives somebody days off; the same again changes nothing. @throws {CrewTooSmall} */
export async function takeOff(deps: Deps, id: number, from: string, to: string): Promise<void> {
  await changeRoom(deps, async trx => {
    await trx
      .insertInto('crew_member_off')
      .values({ crew_member_id: id, from_day: from, to_day: to })
      .onConflict(conflict => conflict.doNothing())
      .execute()
  })
}

/** Takes somebody's days off back; a repeat changes nothing. */
export async function takeOffBack(deps: Deps, id: number): Promise<void> {
  await changeRoom(deps, async trx => {
    await trx.deleteFrom('crew_member_off').where('id', '=', id).execute()
  })
}

async function changeRoom(deps: Deps, change: (trx: Transaction<Database>) => Promise<void>): Promise<void> {
  try {
    await deps.db.transaction().execute(async trx => {
      // One change after the other: each sums up everybody.
      const { time_zone } = await trx
        .selectFrom('business')
        .select('time_zone')
        .forUpdate()
        .executeTakeFirstOrThrow()
      await change(trx)
      await sumUp(trx)
      await followCrew(trx, dayOf(deps.now(), time_zone))
    })
  } catch (error) {
    if (isUniqueViolation(error, 'crew_member_name_key')) throw new Conflict('days.crew-same-name')
    throw error
  }
}

async function sumUp(trx: Transaction<Database>): Promise<void> {
  const crew = await findCrew(trx)
  const sums = Array.from({ length: 7 }, (_, weekday) =>
    sumOf(crew.map(({ hours }) => new Decimal(hours[weekday]!))).toFixed(2),
  )
  await trx
    .updateTable('business')
    .set({ weekday_hours: crew.length > 0 ? sums : null })
    .execute()
}

/** Rows for every day on which somebody is off, and then all that nobody set by hand as the crew has it, in their order. */
async function followCrew(trx: Transaction<Database>, today: string): Promise<void> {
  const last = addDays(today, LOOKED_AHEAD)
  await sql`
    insert into work_day (day, room_hours)
    select distinct off.day::date, usual_room(off.day::date) from crew_member_off,
      generate_series(greatest(from_day, ${today}::date), least(to_day, ${last}::date), interval '1 day') as off(day)
    order by 1 on conflict (day) do nothing`.execute(trx)
  const { rows } = await sql<{ day: string; fits: boolean }>`
    select day, greatest(taken_hours, 2 * am_hours, 2 * pm_hours) <= usual_room(day) as fits from work_day
    where day >= ${today} and not by_hand and room_hours <> usual_room(day) order by day for update`.execute(
    trx,
  )
  const full = rows.filter(({ fits }) => !fits).map(({ day }) => day)
  if (full.length > 0) throw new CrewTooSmall(full)
  const days = rows.map(({ day }) => day)
  if (days.length === 0) return
  await trx
    .updateTable('work_day')
    .set({ room_hours: sql`usual_room(day)` })
    .where('day', 'in', days)
    .execute()
}
