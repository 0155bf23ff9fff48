import fc from 'fast-check'
import { bookDay } from '../../src/bookings/booking.ts'
import { sayDay } from '../../src/bookings/week.ts'
import type { TestApp } from '../helpers/app.ts'
import { isNewestAccepted, type MakeStep } from './model.ts'

const WEEK = 'week 2026-03-16'
/** Its first day, where a job is penciled in while nothing else is booked. */
const MONDAY = '2026-03-16'

/** A week that is chosen, and its day that is said: each pressed twice. */
export function weekSteps(app: TestApp, step: MakeStep) {
  const choose = (day_choice: 'day' | 'week') => app.db.updateTable('business').set({ day_choice }).execute()
  const choosing = fc.constant(
    step(
      'choose a week',
      model => {
        if (model.stage === 'week chosen') return model
        return model.stage === 'quoted' && isNewestAccepted(model)
          ? { ...model, stage: 'week chosen', day: MONDAY }
          : undefined
      },
      async ({ id }) => {
        await choose('week')
        const twice = [bookDay(app.deps, id, WEEK), bookDay(app.deps, id, WEEK)]
        await Promise.all(twice).finally(() => choose('day'))
      },
    ),
  )
  const saying = fc.constantFrom(MONDAY, '2026-03-18').map(day =>
    step(
      `say ${day} of the week`,
      model => {
        if (model.stage === 'booked' && model.day === day) return model
        return model.stage === 'week chosen' ? { ...model, stage: 'booked', day } : undefined
      },
      async ({ id }) => {
        const said = { week: WEEK, day }
        await Promise.all([sayDay(app.deps, 1, id, said), sayDay(app.deps, 1, id, said)])
      },
    ),
  )
  return fc.oneof(choosing, saying)
}
