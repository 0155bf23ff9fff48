import { randomUUID } from 'node:crypto'
import fc from 'fast-check'
import { sql } from 'kysely'
import { expect } from 'vitest'
import { moveWork } from '../../src/bookings/move.ts'
import { findRainJobs, moveForRain } from '../../src/bookings/rain.ts'
import { sayDayUnsuited } from '../../src/bookings/unsuited.ts'
import type { TestApp } from '../helpers/app.ts'

/** What moving needs to know of a life. */
interface Booked {
  stage: string
  day: string | null
  closed?: string[]
}

type Make<Model extends Booked, Step> = (
  name: string,
  predict: (model: Model) => Model | undefined,
  act: (real: { id: number }, model: Model) => Promise<unknown>,
) => Step

const DAYS = ['2026-03-10', '2026-03-11', '2026-03-12'] as const
/** The day on which the work begins, as a page that nobody has loaded again would have it. */
const STALE = '2026-03-30'

/** The steps by which booked work moves: by the staff from a fresh or a stale page, for rain, and what doesn't suit. */
export function movingSteps<Model extends Booked, Step>(
  app: () => TestApp,
  make: Make<Model, Step>,
): fc.Arbitrary<Step> {
  const staff = { kind: 'staff', accountId: 1 } as const
  const moving = fc
    .tuple(fc.constantFrom(...DAYS), fc.constantFrom(false, false, true))
    .map(([to, isStale]) =>
      make(
        `move to ${to}${isStale ? ' from a stale page' : ''}`,
        model => {
          const isClosed = model.closed?.includes(to) && model.day !== to
          if (model.stage !== 'booked' || isClosed || (isStale && model.day !== to)) return undefined
          return { ...model, day: to }
        },
        ({ id }, { day }) =>
          moveWork(app().deps, id, { from: isStale ? STALE : (day ?? STALE), to }, staff).finally(() =>
            expectSound(app()),
          ),
      ),
    )
  const rain = fc.constantFrom(...DAYS).map(to =>
    make(
      `rain, and on to ${to}`,
      model => {
        const moves = model.stage === 'booked' && model.day !== null && model.day < to
        if (moves && model.closed?.includes(to)) return undefined
        return moves ? { ...model, day: to } : model
      },
      async ({ id }, { day }) => {
        if (!day || day >= to) return
        const jobs = await findRainJobs(app().db, day)
        const choices = jobs.map(job => ({
          bookingId: job.bookingId,
          to: job.quoteRequestId === id ? to : null,
        }))
        const sent = { key: randomUUID(), day, choices }
        // Pressed twice.
        const twice = [moveForRain(app().deps, 1, sent), moveForRain(app().deps, 1, sent)]
        await Promise.all(twice).finally(() => expectSound(app()))
      },
    ),
  )
  const unsuited = fc.constant(
    make(
      'say that it doesn’t suit',
      model => (model.stage === 'booked' ? model : undefined),
      ({ id }, { day }) => sayDayUnsuited(app().deps, id, { from: day ?? STALE, words: '' }),
    ),
  )
  return fc.oneof(moving, rain, unsuited)
}

/** No day has more taken than its room, nor anything else than its shares come to. */
export async function expectSound({ db }: TestApp) {
  const { rows } = await sql`
    select day from work_day where taken_hours + visit_hours > room_hours
      or 2 * greatest(am_hours + visit_am_hours, pm_hours + visit_pm_hours) > room_hours
      or taken_hours <> coalesce((select sum(hours) from booking_day where day = work_day.day), 0)`.execute(
    db,
  )
  expect(rows).toEqual([])
}
