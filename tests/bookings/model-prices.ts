import fc from 'fast-check'
import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { declineQuote } from '../../src/bookings/not-this-time.ts'
import { withdrawChange } from '../../src/bookings/withdraw-change.ts'
import type { Stage } from '../../src/db/schema/stages.ts'
import type { Choices } from '../../src/estimate/understood/choices.ts'
import { cents } from '../../src/lib/decimal.ts'
import type { TestApp } from '../helpers/app.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { isNewestAccepted, type MakeStep, type Model, withNewest } from './model.ts'

const QUOTABLE: Stage[] = ['new', 'measured', 'quoted', 'booked']
const OFFER: Choices = {
  picks: [{ bed: null, finish: null, depth: '2', was: { finish: 'shredded-wood', depth: '3' } }],
  addOns: [],
}
// 20 ft × 5 ft, 3 in deep, are 25 ft³: 0.93 h at 1 h a yd³. 2 in deep 0.62 h: 0.31 less, also of hours typed by hand.
const LESS_HOURS = 0.31

/** What the owner and the homeowner do about prices. */
export function priceSteps(app: TestApp, step: MakeStep) {
  const quoting = fc
    .record({
      hours: fc.constantFrom('0.50', '1.00'),
      extra: fc.oneof(fc.constant(100), fc.integer({ min: -500, max: 50_000 })),
      offers: fc.boolean(),
    })
    .map(({ hours, extra, offers }) =>
      step(
        `quote ${hours} h and ${extra} cents${offers ? ', 2 in to be picked' : ''}`,
        model => {
          const last = model.quotes[Math.max(...model.accepted) - 1]
          const isBooked = model.stage === 'booked'
          const changesNothing = isBooked && !offers && last?.hours === hours && last.extra === extra
          if (!QUOTABLE.includes(model.stage) || changesNothing) return undefined
          const quote = { hours, extra, offers, picked: null, withdrawn: false }
          return { ...model, stage: isBooked ? 'booked' : 'quoted', quotes: [...model.quotes, quote] }
        },
        ({ number }) => {
          const added = [{ description: 'More', amount: (extra / 100).toFixed(2), reason: 'more' }]
          return quoteRequest(app, number, { laborHours: hours, added, choices: offers ? OFFER : null })
        },
      ),
    )

  const accepting = fc
    .record({ back: fc.constantFrom(0, 0, 0, 1), picks: fc.constantFrom('0-', '1-', '1-', '') })
    .map(({ back, picks }) =>
      step(
        `accept the ${back === 0 ? 'newest' : 'one before'}, picking ${picks || 'nothing'}`,
        model => (back > 0 ? undefined : acceptedWith(model, picks)),
        ({ id }, { quotes }) =>
          acceptQuote(app.deps, id, { revision: quotes.length - back, typedName: 'Carol Reyes', picks }),
      ),
    )

  const booking = fc.constantFrom('2026-03-10', '2026-03-11').map(day =>
    step(
      `book ${day}`,
      model => {
        if (model.day !== null) return model.day === day ? model : undefined
        return model.stage === 'quoted' && isNewestAccepted(model) && !model.closed.includes(day)
          ? { ...model, stage: 'booked', day }
          : undefined
      },
      ({ id }) => bookDay(app.deps, id, day),
    ),
  )

  const declining = fc.constant(
    step(
      'decline',
      model => {
        if (model.stage === 'not taken') return model
        if (isNewestAccepted(model)) return undefined
        if (model.stage === 'booked') return model
        return model.stage === 'quoted' ? { ...model, stage: 'not taken' } : undefined
      },
      ({ id }) => declineQuote(app.deps, id, { reason: 'price', words: '' }),
    ),
  )

  const withdrawing = fc.constant(
    step(
      'take the change back',
      model =>
        model.stage === 'booked' && !isNewestAccepted(model)
          ? withNewest(model, { withdrawn: true })
          : undefined,
      ({ id }, { quotes }) => withdrawChange(app.deps, 1, id, quotes.length),
    ),
  )

  return { quoting, accepting, booking, declining, withdrawing }
}

// Picks are only looked at where there is something to pick.
function acceptedWith(model: Model, picks: string): Model | undefined {
  const newest = model.quotes.at(-1)
  if (!newest) return undefined
  if (isNewestAccepted(model))
    return newest.offers && picks !== '' && picks !== newest.picked ? undefined : model
  const may = model.stage === 'quoted' || model.stage === 'booked'
  if (!may || newest.withdrawn || (newest.offers && picks === '')) return undefined
  const takes = newest.offers && picks === '1-'
  const hours = takes && !model.shallow ? cents(Number(newest.hours) - LESS_HOURS) : newest.hours
  return {
    ...withNewest(model, { hours, picked: newest.offers ? picks : null }),
    accepted: [...model.accepted, model.quotes.length],
    shallow: model.shallow || takes,
  }
}
