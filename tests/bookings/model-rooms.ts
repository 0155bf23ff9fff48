import fc from 'fast-check'
import { sql } from 'kysely'
import { requireBusiness } from '../../src/business/queries.ts'
import { findCrew, findCrewOff, keepCrew, takeOff, takeOffBack } from '../../src/days/crew.ts'
import { takeDaysOff } from '../../src/days/days-off.ts'
import { setRoom } from '../../src/days/work-day.ts'
import type { TestApp } from '../helpers/app.ts'
import { weekdays } from '../helpers/crew.ts'
import type { MakeStep, Model } from './model.ts'
import { expectSound } from './model-moves.ts'

const DAYS = ['2026-03-10', '2026-03-11', '2026-03-12'] as const

/** Has one person work, and nothing booked or closed on the days of the model: lives share them. */
export async function freshDays(app: TestApp): Promise<void> {
  await sql`update booking set called_off_at = made_at where called_off_at is null`.execute(app.db)
  await sql`delete from booking_day`.execute(app.db)
  await sql`delete from work_day where day >= ${DAYS[0]}::date`.execute(app.db)
  await sql`delete from crew_member_off`.execute(app.db)
  const [ann] = await findCrew(app.db)
  await keepCrew(app.deps, [{ id: ann?.id ?? null, name: 'Ann', hours: weekdays('8') }], [])
}

/** What changes the room of a day: its hours by hand, a day off, and who works on it. */
export function roomSteps(app: TestApp, step: MakeStep) {
  const sound = () => expectSound(app)
  const hours = fc.tuple(fc.constantFrom(...DAYS), fc.constantFrom('0', '8', '30')).map(([day, room]) =>
    step(
      `give ${day} ${room} hours`,
      model => {
        if (room === '0') return closedByHand(model, day)
        return { ...model, closed: model.closed.filter(one => one !== day), byHand: [...model.byHand, day] }
      },
      async () => setRoom(app.deps, await requireBusiness(app.db), day, room).finally(sound),
    ),
  )
  const off = fc.constantFrom(...DAYS).map(day =>
    step(
      `have ${day} off`,
      model => closedByHand(model, day),
      async () => {
        const wanted = { from: day, to: day, why: 'Fishing' }
        await takeDaysOff(app.deps, await requireBusiness(app.db), wanted).finally(sound)
      },
    ),
  )
  const annOff = fc.constantFrom(...DAYS).map(day =>
    step(
      `Ann is off on ${day}`,
      model => {
        // What the owner set by hand stays.
        if (model.byHand.includes(day)) return model
        return model.day === day ? undefined : { ...model, closed: [...model.closed, day] }
      },
      async () => {
        const [ann] = await findCrew(app.db)
        await takeOff(app.deps, ann!.id, day, day).finally(sound)
      },
    ),
  )
  const annBack = fc.constant(
    step(
      'Ann is back',
      model => ({ ...model, closed: model.closed.filter(day => model.byHand.includes(day)) }),
      async () => {
        for (const { id } of await findCrewOff(app.db, DAYS[0])) await takeOffBack(app.deps, id)
        await sound()
      },
    ),
  )
  return fc.oneof(hours, off, annOff, annBack)
}

function closedByHand(model: Model, day: string): Model | undefined {
  if (model.day === day) return undefined
  return { ...model, closed: [...model.closed, day], byHand: [...model.byHand, day] }
}
