import fc from 'fast-check'
import { sql } from 'kysely'
import { afterAll, beforeAll, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'
import { born, type known, type Real, stepMaker } from './model.ts'
import { askingSteps } from './model-asks.ts'
import { endSteps, moneySteps, visitSteps } from './model-besides.ts'
import { movingSteps } from './model-moves.ts'
import { priceSteps } from './model-prices.ts'
import { freshDays, roomSteps } from './model-rooms.ts'
import { weekSteps } from './model-weeks.ts'

/** How many lives are tried, and how many steps each has at most. */
const LIVES = Number(process.env.ROUNDS ?? 6)
const STEPS = 14
/** The usual run tries the same lives each time; the long one others. */
const SEED = process.env.ROUNDS ? {} : { seed: 1127 }
const TIME = { timeout: 30_000 + LIVES * 5000 }

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

async function found({ id }: Real) {
  const { rows } = await sql<ReturnType<typeof known>>`
    select stage, (select count(*) from quote where quote_request_id = q.id) as quotes,
      array(select revision from quote join acceptance on quote_id = quote.id
        where quote_request_id = q.id order by revision) as accepted,
      (select first_day from booking where quote_request_id = q.id and called_off_at is null) as day,
      (select sum(hours)::numeric(8,2) from booking join booking_day on booking_id = booking.id
        where quote_request_id = q.id and called_off_at is null) as hours,
      (select count(*) from quote where quote_request_id = q.id
        and total <> (select sum(amount) from quote_line where quote_id = quote.id)) as wrong,
      (select coalesce(sum(amount), 0)::numeric(12,2) from payment where quote_request_id = q.id) as held,
      coalesce(step = 'Collect', false) as collects
    from quote_request q where id = ${id}`.execute(app.db)
  return rows[0]!
}

test(
  'whatever is done to a request in whatever order, it goes only where the model goes, and its lines add up',
  TIME,
  async () => {
    const step = stepMaker(found)
    const { quoting, accepting, booking, declining, withdrawing } = priceSteps(app, step)
    const money = moneySteps(app, step)
    const moving = movingSteps(() => app, step)
    // What ends a life comes seldom, and many lives begin further on: else few would see a change of booked work.
    const asking = askingSteps(app, step)
    const rooms = roomSteps(app, step)
    const weeks = weekSteps(app, step)
    const often = [quoting, accepting, booking, money, moving, asking, rooms, weeks].flatMap(steps => [
      steps,
      steps,
      steps,
    ])
    const seldom = [declining, withdrawing, endSteps(app, step), visitSteps(app, step)]
    const steps = fc.commands([...often, ...seldom], { maxCommands: STEPS, size: 'max' })
    const begun = fc
      .tuple(quoting, accepting, booking, quoting)
      .chain(beginning => fc.constantFrom(0, 1, 3, 4).map(length => beginning.slice(0, length)))
    await fc.assert(
      fc.asyncProperty(begun, steps, async (beginning, commands) => {
        await freshDays(app)
        const real = await sendRequest(app)
        const model = born()
        for (const first of beginning) await first.run(model, real)
        await fc.asyncModelRun(() => ({ model, real }), commands)
      }),
      { numRuns: LIVES, endOnFailure: true, ...SEED },
    )
  },
)
