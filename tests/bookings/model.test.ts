import fc from 'fast-check'
import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { callOff } from '../../src/bookings/call-off.ts'
import { cannotDo } from '../../src/bookings/cannot-do.ts'
import { declineQuote } from '../../src/bookings/not-this-time.ts'
import type { Stage } from '../../src/db/schema.ts'
import { cents } from '../../src/lib/decimal.ts'
import { FOLLOWING } from '../../src/requests/stage.ts'
import { keepMeasurements, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'
import { movingSteps } from './model-moves.ts'

/** How many lives are tried, and how many steps each has at most. */
const LIVES = Number(process.env.ROUNDS ?? 6)
const STEPS = 12
/** The usual run tries the same lives each time; the long one others. */
const SEED = process.env.ROUNDS ? {} : { seed: 1127 }
const TIME = { timeout: 30_000 + LIVES * 5000 }

/** All that a life is known by: its stage, the hours of every quote, which of them were accepted, and the day booked. */
interface Model {
  stage: Stage
  quotes: string[]
  accepted: number[]
  day: string | null
}

interface Real {
  id: number
  number: string
}

type Step = fc.AsyncCommand<Model, Real>

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const isNewestAccepted = ({ quotes, accepted }: Model) =>
  quotes.length > 0 && accepted.includes(quotes.length)

/** A step as the model has it, undefined where it is refused; and as the application does it. */
function step(
  name: string,
  predict: (model: Model) => Model | undefined,
  act: (real: Real, model: Model) => Promise<unknown>,
): Step {
  return {
    toString: () => name,
    check: () => true,
    async run(model, real) {
      const after = predict(model)
      const done = await act(real, model).then(
        () => true,
        () => false,
      )
      expect({ name, model, done }).toEqual({ name, model, done: after !== undefined })
      if (after && after.stage !== model.stage) expect(FOLLOWING[model.stage]).toContain(after.stage)
      Object.assign(model, after)
      expect({ name, ...(await found(real)) }).toEqual({ name, ...known(model) })
    },
  }
}

/** What the database has to hold by the model. */
function known({ stage, quotes, accepted, day }: Model) {
  const hours = day && quotes[Math.max(...accepted) - 1]!
  return { stage, quotes: quotes.length, accepted, day, hours: hours && cents(hours), wrong: 0 }
}

async function found({ id }: Real) {
  const { rows } = await sql<ReturnType<typeof known>>`
    select stage, (select count(*) from quote where quote_request_id = q.id) as quotes,
      array(select revision from quote join acceptance on quote_id = quote.id
        where quote_request_id = q.id order by revision) as accepted,
      (select first_day from booking where quote_request_id = q.id and called_off_at is null) as day,
      (select sum(hours)::numeric(8,2) from booking join booking_day on booking_id = booking.id
        where quote_request_id = q.id and called_off_at is null) as hours,
      (select count(*) from quote where quote_request_id = q.id
        and total <> (select sum(amount) from quote_line where quote_id = quote.id)) as wrong
    from quote_request q where id = ${id}`.execute(app.db)
  return rows[0]!
}

const QUOTABLE: Stage[] = ['new', 'measured', 'quoted', 'booked']
const MAY_END: Stage[] = ['new', 'visit set', 'measured']

const quoting = fc
  .record({
    laborHours: fc.constantFrom('0.25', '0.50', '1.00'),
    cents: fc.integer({ min: -500, max: 50_000 }),
  })
  .map(({ laborHours, cents: extra }) =>
    step(
      `quote ${laborHours} h and ${extra} cents`,
      model =>
        QUOTABLE.includes(model.stage)
          ? {
              ...model,
              stage: model.stage === 'booked' ? 'booked' : 'quoted',
              quotes: [...model.quotes, laborHours],
            }
          : undefined,
      ({ number }) => {
        const added = [{ description: 'More', amount: (extra / 100).toFixed(2), reason: 'more' }]
        return quoteRequest(app, number, { laborHours, added })
      },
    ),
  )

const accepting = fc.constantFrom(0, 0, 0, 1).map(back =>
  step(
    back === 0 ? 'accept the newest' : 'accept the one before',
    model => {
      if (model.quotes.length === 0 || back > 0) return undefined
      if (isNewestAccepted(model)) return model
      const may = model.stage === 'quoted' || model.stage === 'booked'
      return may ? { ...model, accepted: [...model.accepted, model.quotes.length] } : undefined
    },
    ({ id }, { quotes }) =>
      acceptQuote(app.deps, id, { revision: quotes.length - back, typedName: 'Carol Reyes' }),
  ),
)

const booking = fc.constantFrom('2026-03-10', '2026-03-11').map(day =>
  step(
    `book ${day}`,
    model => {
      if (model.stage === 'booked') return model.day === day ? model : undefined
      return model.stage === 'quoted' && isNewestAccepted(model)
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

const callingOff = fc.constant(
  step(
    'call off',
    model => {
      if (model.stage === 'called off') return model
      return FOLLOWING[model.stage].includes('called off')
        ? { ...model, stage: 'called off', day: null }
        : undefined
    },
    ({ id }) => callOff(app.deps, id, ''),
  ),
)

const visiting = fc.constantFrom(
  step(
    'set a visit',
    model =>
      model.stage === 'new' || model.stage === 'visit set' ? { ...model, stage: 'visit set' } : undefined,
    ({ id }) => setVisit(app.deps, 1, id, app.deps.now().add({ hours: 48 })),
  ),
  step(
    'measure',
    model =>
      model.stage === 'visit set' || model.stage === 'measured' ? { ...model, stage: 'measured' } : undefined,
    ({ id }) => keepMeasurements(app.deps, 1, id, told({ ...bedTold(), toldBed: 0 })),
  ),
  step(
    'turn down',
    model => {
      if (model.stage === "can't do") return model
      return MAY_END.includes(model.stage) ? { ...model, stage: "can't do" } : undefined
    },
    ({ id }) => cannotDo(app.deps, 1, id, { reason: 'far', words: '' }),
  ),
)

test(
  'whatever is done to a request in whatever order, it goes only where the model goes, and its lines add up',
  TIME,
  async () => {
    // What ends a life comes seldom, and many lives begin further on: else few would see a change of booked work.
    const moving = movingSteps(() => app, step)
    const often = [quoting, accepting, booking, moving].flatMap(steps => [steps, steps, steps])
    const steps = fc.commands([...often, declining, callingOff, visiting], {
      maxCommands: STEPS,
      size: 'max',
    })
    const begun = fc
      .tuple(quoting, accepting, booking, quoting)
      .chain(beginning => fc.constantFrom(0, 1, 3, 4).map(length => beginning.slice(0, length)))
    await fc.assert(
      fc.asyncProperty(begun, steps, async (beginning, commands) => {
        const real = await sendRequest(app)
        const model: Model = { stage: 'new', quotes: [], accepted: [], day: null }
        for (const first of beginning) await first.run(model, real)
        await fc.asyncModelRun(() => ({ model, real }), commands)
      }),
      { numRuns: LIVES, endOnFailure: true, ...SEED },
    )
  },
)
