import { randomUUID } from 'node:crypto'
import { sql } from 'kysely'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { Budget } from '../../src/limits/budget.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { type Outcome, type Picture, pictureOf, type Race } from './race.ts'
import { RACES } from './races.ts'
import { type Answer, type Service, servicesOf } from './two-services.ts'

/** How often each is raced: once in every run, and as often as `RACES` says in a long one. */
const ROUNDS = Number(process.env.RACES ?? 1)

/** Only those are raced whose names have this in them; all unless told. */
const CHOSEN = process.env.RACE ?? ''

let app: TestApp
let cookie: string

beforeAll(async () => {
  // What strangers may ask for comes back with time, of which a long run takes some.
  app = await testApp({ load: { budget: new Budget(() => Temporal.Now.instant()) } })
  const { owner } = await openBusiness(app)
  cookie = owner.jar.getCookies({ domain: new URL(app.base).hostname, path: '/' } as never).toValueString()
  // Room for as many as a long run books.
  await app.db.updateTable('business').set({ labor_hours_a_day: '500' }).execute()
})
afterAll(() => app.close())

test('forms that two processes get at once are done once, whether they say the same or not, and numbers have no gap', {
  timeout: 120_000 + ROUNDS * 180_000,
}, async () => {
  const services = await servicesOf(app)
  const chosen = RACES.filter(({ name }) => name.includes(CHOSEN))
  for (let round = 0; round < ROUNDS; round++) for (const one of chosen) await race(services, one)
  expect(await numbersOutOfTurn()).toEqual([])
})

async function race(services: Service[], one: Race) {
  const { name, forms, outcomes, onlyOne = false, besides = async () => [] } = one
  const email = `${randomUUID()}@home.example`
  const sent = await forms(app, cookie, email)
  const before = await pictureOf(app.db, email)
  // To every service, and in a long run twice, as where there is one form alone; none of the services is always first.
  const times = ROUNDS > 1 || sent.length === 1 ? [0, 1] : [0]
  const posts = times.flatMap(() => sent.flatMap(form => services.map(service => ({ form, service }))))
  const answers = await Promise.all(
    shuffled(posts).map(async ({ form, service }) => ({ form, kind: kindOf(await service(form), one) })),
  )
  const after = await pictureOf(app.db, email)
  const added = { ...addedSince(before, after), besides: await besides(app, email) }
  // An assertion about a list doesn’t say all that was looked for.
  expect.soft(outcomes.map(whole), `${name}: ${JSON.stringify(added)}`).toContainEqual(added)
  // One at least was told that it is done; the others that, or a page that says why not.
  const done = answers.filter(({ kind }) => kind === 'done')
  expect.soft(done, name).not.toEqual([])
  if (onlyOne) expect.soft([...new Set(done.map(({ form }) => form))], name).toHaveLength(1)
  const others = answers.map(({ kind }) => kind).filter(kind => kind !== 'done' && kind !== 'refused')
  expect.soft(others.join('\n'), name).toBe('')
}

function kindOf({ status, location, page }: Answer, { ends = false, shows = false }: Race): string {
  if (shows && (status === 200 || location === '/sign-in')) return 'done'
  if (ends && status === 303 && location === '/sign-in') return 'refused'
  if (status === 303 && location.startsWith('/') && !location.startsWith('/sign-in')) return 'done'
  const refusing = ends ? [404, 409, 410, 422] : [409, 422]
  if (refusing.includes(status) && page.includes('</html>')) return 'refused'
  return `${status} ${location} ${page.slice(0, 500)}`
}

const NOTHING = {
  held: 0,
  accepted: 0,
  booked: 0,
  closings: 0,
  bills: [],
  payments: [],
  settled: [],
  visits: [],
  history: [],
  outbox: [],
  besides: [],
}
const whole = (outcome: Outcome): Picture => ({ ...NOTHING, ...outcome })

type Counted = Omit<Picture, 'besides'>

/** The stages and visits as they are, and of all else what there is more of. */
function addedSince(before: Counted, after: Counted): Counted {
  const more = (key: 'bills' | 'payments' | 'settled' | 'history' | 'outbox') => {
    const left = [...before[key]]
    return after[key].filter(one => {
      const at = left.indexOf(one)
      if (at >= 0) left.splice(at, 1)
      return at < 0
    })
  }
  return {
    stages: after.stages,
    held: after.held - Math.min(before.held, after.held),
    accepted: after.accepted - before.accepted,
    booked: after.booked - before.booked,
    closings: after.closings - before.closings,
    bills: more('bills'),
    payments: more('payments'),
    settled: more('settled'),
    visits: after.visits,
    history: more('history').sort(),
    outbox: more('outbox').sort(),
  }
}

/**
 * The numbers of bills and credit memos that leave a gap before them, and the numbers of requests
 * that there are twice, and the versions of the rates that leave a gap.
 */
async function numbersOutOfTurn(): Promise<unknown[]> {
  const { rows } = await sql`
    select number from (select number, nth, row_number() over (partition by kind, year order by nth) as turn from bill) as b
      where nth <> turn
    union all select number from (select number from quote_request union all select number from maybe_junk) as n
      group by number having count(*) > 1
    union all select version::text from (select version, row_number() over (order by version) as turn from rate_table) as v
      where version <> turn`.execute(app.db)
  return rows
}

function shuffled<One>(all: readonly One[]): One[] {
  return all
    .map(one => [Math.random(), one] as const)
    .sort(([a], [b]) => a - b)
    .map(([, one]) => one)
}
