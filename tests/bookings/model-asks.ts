import fc from 'fast-check'
import { bookDay } from '../../src/bookings/booking.ts'
import { confirmDay, declineDay, endPastHolds } from '../../src/bookings/day-asked.ts'
import type { TestApp } from '../helpers/app.ts'
import { isNewestAccepted, type MakeStep, type Model } from './model.ts'

const OTHER = '2026-03-30'

/** A day that is asked for, and what becomes of it: confirmed or declined from a fresh or a stale page, or too late. */
export function askingSteps(app: TestApp, step: MakeStep) {
  const choose = (day_choice: 'day' | 'ask') => app.db.updateTable('business').set({ day_choice }).execute()
  const asking = fc.constantFrom('2026-03-10', '2026-03-11').map(day =>
    step(
      `ask for ${day}`,
      model => {
        if (model.day !== null) return model.day === day ? model : undefined
        return model.stage === 'quoted' && isNewestAccepted(model) && !model.closed.includes(day)
          ? { ...model, stage: 'day asked', day }
          : undefined
      },
      async ({ id }) => {
        await choose('ask')
        // Pressed twice.
        await Promise.all([bookDay(app.deps, id, day), bookDay(app.deps, id, day)]).finally(() =>
          choose('day'),
        )
      },
    ),
  )
  const confirming = fc.constantFrom(false, false, true).map(isStale =>
    step(
      `confirm${isStale ? ' what a stale page shows' : ''}`,
      model => {
        if (isStale || model.day === null) return undefined
        return model.stage === 'booked' || model.stage === 'day asked'
          ? { ...model, stage: 'booked' }
          : undefined
      },
      ({ id }, { day }) => confirmDay(app.deps, 1, id, isStale ? OTHER : (day ?? OTHER)),
    ),
  )
  const freed = (model: Model): Model => ({ ...model, stage: 'quoted', day: null })
  const declining = fc.constant(
    step(
      'decline the day',
      model => (model.stage === 'day asked' ? freed(model) : undefined),
      ({ id }, { day }) => declineDay(app.deps, 1, id, { day: day ?? OTHER, offered: '', words: '' }),
    ),
  )
  const ending = fc.constant(
    step(
      'answer it too late',
      model => (model.stage === 'day asked' ? freed(model) : model),
      async ({ id }) => {
        await app.db
          .updateTable('booking')
          .set({ held_until: app.deps.now().toString() })
          .where('quote_request_id', '=', id)
          .where('held_until', 'is not', null)
          .where('called_off_at', 'is', null)
          .execute()
        await Promise.all([endPastHolds(app.deps), endPastHolds(app.deps)])
      },
    ),
  )
  return fc.oneof(asking, asking, confirming, declining, ending)
}
