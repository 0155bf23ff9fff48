import { sql } from 'kysely'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { closeJob } from '../../src/closing/close-job.ts'
import { json } from '../../src/db/json.ts'
import { findAcceptedQuote } from '../../src/quotes/queries.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, acceptForm, quotedRequest, standing } from '../helpers/bookings.ts'
import { ALICE, type Browser, openBusiness, signedIn } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { SEED } from '../helpers/seed.ts'
import { filled, type Visitors, visitors } from './visitors.ts'

const NOW = '2026-03-02T15:00:00Z'
const STAFF = { kind: 'staff', accountId: 1 } as const
const [NEAR, FAR, LATER] = ['2026-03-10', '2026-03-11', '2026-03-12'] as const
const WEEK = 'week 2026-03-09'

let app: TestApp
let owner: Browser
let visit: Visitors
let ownerId: number

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  visit = visitors(app, () => owner)
  ;({ id: ownerId } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow())
})
afterAll(() => app.close())
afterEach(async () => {
  app.setClock(NOW)
  // What is done keeps its days, and each walk wants them free.
  await sql`update booking set called_off_at = made_at where called_off_at is null`.execute(app.db)
  await sql`delete from booking_day`.execute(app.db)
})

interface Ways {
  choice: 'day' | 'week' | 'ask'
  halves: boolean
  off: { by: 'share' | 'money'; value: string } | null
}

const ALL: Ways[] = (['day', 'week', 'ask'] as const).flatMap(choice =>
  [false, true].flatMap(halves =>
    [null, { by: 'share' as const, value: '0.05' }].map(off => ({ choice, halves, off })),
  ),
)
/** Every way in a long run, else each choice with halves and discount as the seed says. */
const WAYS = process.env.ROUNDS ? ALL : ALL.filter((_, nth) => nth % 4 === (SEED ?? 3) % 4)

async function follow({ choice, halves, off }: Ways) {
  const row = { day_choice: choice, half_days: halves, near_discount: off && json(off) }
  await app.db.updateTable('business').set(row).execute()
}

/** A request priced at 400, and somebody in its ZIP code who is booked on the near day. */
async function pricedBesideNeighbor(isAccepted = false) {
  const neighbor = await acceptedRequest(app, '1')
  await bookDay(app.deps, neighbor.id, NEAR, STAFF)
  const { id, number, path } = await quotedRequest(app, '3')
  const { total } = await app.db
    .selectFrom('quote')
    .select('total')
    .where('quote_request_id', '=', id)
    .executeTakeFirstOrThrow()
  const added = [{ description: 'Gate', amount: String(400 - Number(total)), reason: 'asked for' }]
  const { revision } = await quoteRequest(app, number, { added, laborHours: '3' })
  if (isAccepted)
    await visit.send('homeowner', `${path}/accept`, acceptForm({ revision: String(revision), day: 'none' }))
  const own = (await findLinkPath(app.db, app.deps.secretKey, 'own page', id))!
  return { id, number, path, own, revision }
}

type Job = Awaited<ReturnType<typeof pricedBesideNeighbor>>

/** Every page that shows the job, in one language and the next time in the other. */
async function lookEverywhere({ number, path, own }: Job) {
  const language = visit.otherLanguage()
  for (const page of [path, own, `${path}/price.pdf`]) await visit.look('homeowner', page, language)
  await visit.look('owner', `/queue/${number}`)
  await visit.look('owner', `/days?from=${NEAR}`)
  await visit.look('owner', '/queue')
}

const total = async (id: number) => Number((await findAcceptedQuote(app.db, id))!.total)

describe.each(WAYS)('chosen by $choice, halves $halves, discount $off.value:', ways => {
  const { choice, halves, off } = ways
  const byHalf = halves && choice !== 'week'
  const start = choice === 'week' ? WEEK : byHalf ? `${NEAR} am` : NEAR
  const stage = { day: 'booked', week: 'week chosen', ask: 'day asked' }[choice]
  const price = off && choice !== 'week' ? 380 : 400

  async function acceptedWith(job: Job, day: string) {
    const form = acceptForm({ revision: String(job.revision), day }) as Record<string, string>
    const check = await visit.send('homeowner', `${job.path}/check`, form, 200)
    const sent = filled(check, `${job.path}/check`, `${job.path}/accept`)
    for (const _press of [1, 2]) await visit.send('homeowner', `${job.path}/accept`, sent)
  }

  /** The staff's part until it's booked: a day asked for is confirmed, of a week the day is said. */
  async function settled({ id, number }: Job, chosen: string, said: string) {
    if (choice === 'ask') await visit.send('owner', `/queue/${number}/day/confirm`, { asked: chosen })
    if (choice === 'week') await visit.send('owner', `/queue/${number}/week`, { week: chosen, weekDay: said })
    expect((await standing(app, id)).stage).toBe('booked')
  }

  test('read, accepted with its start in one go, changed, moved, done and billed', async () => {
    await follow(ways)
    const job = await pricedBesideNeighbor()
    await lookEverywhere(job)
    expect(await visit.look('homeowner', `${job.path}/accept`)).toContain(`value="${start}"`)
    await acceptedWith(job, start)
    expect(await standing(app, job.id)).toMatchObject({ stage, days: [{ hours: '3.00' }] })
    await lookEverywhere(job)
    await settled(job, start, NEAR)
    expect(await total(job.id)).toBe(price)
    await lookEverywhere(job)

    // A change order starts with what was promised, and says the difference.
    const page = await visit.look('owner', `/queue/${job.number}/quote`)
    expect(page.includes('Near another job that day')).toBe(price === 380)
    const words = 'Near another job that day'
    const gate = { description: 'Gate', amount: '250.00', reason: 'asked for' }
    const added = [gate, ...(price === 380 ? [{ description: words, amount: '-20.00', reason: words }] : [])]
    const { revision } = await quoteRequest(app, job.number, { added, laborHours: '3.5' })
    await lookEverywhere(job)
    const agreed = { revision: String(revision), typedName: 'Carol Reyes', read: 'yes' }
    const check = await visit.send('homeowner', `${job.path}/check`, agreed, 200)
    await visit.send(
      'homeowner',
      `${job.path}/accept`,
      filled(check, `${job.path}/check`, `${job.path}/accept`),
    )
    const changed = await total(job.id)
    await lookEverywhere(job)

    // Moving: not by the homeowner where days are asked for; elsewhere the discount ends with the near day.
    const standingStart = choice === 'week' ? NEAR : start
    const there = halves ? `${FAR} pm` : FAR
    const dayPage = await visit.look('homeowner', `${job.own}/day`)
    const move = {
      from: standingStart,
      day: there,
      prices: /name="prices" value="([^"]*)"/.exec(dayPage)?.[1] ?? '',
    }
    await visit.send('homeowner', `${job.own}/day`, move, choice === 'ask' ? 409 : 303)
    if (choice === 'ask')
      await visit.send('owner', `/queue/${job.number}/move`, { from: standingStart, newDay: there })
    expect((await standing(app, job.id)).days).toEqual([{ day: FAR, hours: '3.50' }])
    const moved = await total(job.id)
    expect(moved).toBeCloseTo(price === 380 && choice === 'day' ? changed + 20 : changed, 2)
    await lookEverywhere(job)

    // Rain, as the page proposes it.
    const rain = await visit.look('owner', `/days/${FAR}/rain`)
    await visit.send('owner', `/days/${FAR}/rain`, filled(rain, `/days/${FAR}/rain`, `/days/${FAR}/rain`))
    const [after] = (await standing(app, job.id)).days
    expect(after!.day > FAR).toBe(true)
    expect(await total(job.id)).toBe(moved)
    await lookEverywhere(job)

    app.setClock(`${after!.day}T23:00:00Z`)
    owner = await signedIn(app, ALICE)
    await closeJob(app.deps, ownerId, job.id, 1)
    const toBill = await visit.look('owner', `/queue/${job.number}`)
    const bill = filled(toBill, `/queue/${job.number}`, `/queue/${job.number}/bill`)
    await visit.send('owner', `/queue/${job.number}/bill`, bill)
    const made = await app.db
      .selectFrom('bill')
      .selectAll()
      .where('quote_request_id', '=', job.id)
      .executeTakeFirstOrThrow()
    expect(Number(made.total)).toBe(moved)
    await lookEverywhere(job)
  })

  test('accepted first, its start chosen after, called off by the homeowner', async () => {
    await follow(ways)
    const job = await pricedBesideNeighbor(true)
    const page = await visit.look('homeowner', job.path)
    const form = { ...filled(page, job.path, `${job.path}/day`), day: start }
    for (const _press of [1, 2]) await visit.send('homeowner', `${job.path}/day`, form)
    expect((await standing(app, job.id)).stage).toBe(stage)
    expect(await total(job.id)).toBe(price)
    await lookEverywhere(job)
    await visit.look('homeowner', `${job.own}/call-off`)
    for (const _press of [1, 2]) await visit.send('homeowner', `${job.own}/call-off`, { why: 'Moving' })
    expect(await standing(app, job.id)).toMatchObject({ stage: 'called off', days: [] })
    await lookEverywhere(job)
  })

  test('a start that isn’t offered is refused beside the field, whatever it is', async () => {
    await follow(ways)
    const job = await pricedBesideNeighbor(true)
    const page = await visit.look('homeowner', job.path)
    const form = filled(page, job.path, `${job.path}/day`)
    const wrong = ['', 'soon', '2026-03-08', '2026-03-08 am', '2026-02-10', 'week 2026-03-10', '2030-03-11']
    const other = choice === 'week' ? [NEAR, `${NEAR} am`] : [WEEK, ...(halves ? [] : [`${NEAR} am`])]
    for (const day of [...wrong, ...other]) {
      const answer = await visit.ask('homeowner', `${job.path}/day`, { ...form, day })
      expect([day, answer.status >= 400 && answer.status < 500]).toEqual([day, true])
    }
    expect(await standing(app, job.id)).toMatchObject({ stage: 'quoted', days: [] })
    expect(await total(job.id)).toBe(400)
  })

  test('the staff book it on the phone, move it, and it is canceled with a reason', async () => {
    await follow(ways)
    const job = await pricedBesideNeighbor(true)
    const by = halves ? ' pm' : ''
    await visit.look('owner', `/queue/${job.number}`)
    await visit.send('owner', `/queue/${job.number}/day`, { day: `${FAR}${by}` })
    await visit.send('owner', `/queue/${job.number}/move`, { from: `${FAR}${by}`, newDay: LATER })
    expect(await standing(app, job.id)).toMatchObject({ stage: 'booked', days: [{ day: LATER }] })
    expect(await total(job.id)).toBe(400)
    await lookEverywhere(job)
    await visit.send('homeowner', `${job.own}/day`, { from: LATER, day: 'none', words: 'Away' })
    await lookEverywhere(job)
    await visit.send('owner', `/queue/${job.number}/as-set`, { from: LATER })
    await visit.send('owner', `/queue/${job.number}/cancel`, { whyCanceled: 'No bark to be had' })
    await lookEverywhere(job)
    expect((await standing(app, job.id)).days).toEqual([])
  })
})
