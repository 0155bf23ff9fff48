import { afterAll, beforeAll, expect, test } from 'vitest'
import { acceptAndBook } from '../../src/bookings/booking.ts'
import type { Stage } from '../../src/db/schema/stages.ts'
import { recordHistory } from '../../src/requests/history.ts'
import { lockQuoteRequest, moveTo } from '../../src/requests/stage.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { standing } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const callOff = (ownPath: string, reason = '') =>
  app.browser().post(`${ownPath}/call-off`).type('form').send({ reason })
const stageOf = async (id: number) =>
  (await app.db.selectFrom('quote_request').select('stage').where('id', '=', id).executeTakeFirstOrThrow())
    .stage

async function sentAndMoved(...stages: Stage[]) {
  const sent = await sendRequest(app)
  await app.db.transaction().execute(async trx => {
    for (const stage of stages) {
      const request = await lockQuoteRequest(trx, sent.id)
      await moveTo(trx, request, stage, app.deps.now())
      await recordHistory(trx, sent.id, { kind: 'clock' }, stage, app.deps.now())
    }
  })
  return sent
}

test('it is called off on a page of its own, once, and the owner hears of it', async () => {
  const sent = await sendRequest(app)
  expect((await app.browser().get(`${sent.ownPath}/call-off`)).text).toContain('Cancel the request')
  expect((await callOff(sent.ownPath, 'sold the house')).status).toBe(303)
  expect((await callOff(sent.ownPath, 'pressed twice')).status).toBe(303)
  expect(await stageOf(sent.id)).toBe('called off')
  const history = await app.db
    .selectFrom('history')
    .selectAll()
    .where('quote_request_id', '=', sent.id)
    .orderBy('id')
    .execute()
  expect(history).toMatchObject([
    { verb: 'sent' },
    { verb: 'called off', by_kind: 'homeowner', detail: { reason: 'sold the house' } },
  ])
  const mails = await app.db
    .selectFrom('outbox')
    .select('kind')
    .where('quote_request_id', '=', sent.id)
    .execute()
  expect(mails.filter(mail => mail.kind === 'called-off-staff')).toHaveLength(1)
  const page = await app.browser().get(sent.ownPath)
  expect(page.text).toContain('You canceled this')
  expect(page.text).not.toContain('/call-off')
})

test.each<Stage[][]>([[['visit set']], [['visit set', 'measured']], [['quoted']]])(
  'it may be called off when %j',
  async stages => {
    const sent = await sentAndMoved(...stages)
    expect((await callOff(sent.ownPath)).status).toBe(303)
    expect(await stageOf(sent.id)).toBe('called off')
  },
)

test('a visit ahead falls away with it', async () => {
  const sent = await sentAndMoved('visit set')
  await app.db
    .insertInto('visit')
    .values({
      quote_request_id: sent.id,
      starts_at: '2026-03-05T15:30:00Z',
      made_at: '2026-03-02T15:00:00Z',
      done_at: null,
      called_off_at: null,
    })
    .execute()
  expect((await app.browser().get(sent.ownPath)).text).toContain('Thu, Mar 5, 9:30')
  await callOff(sent.ownPath)
  const visit = await app.db
    .selectFrom('visit')
    .select('called_off_at')
    .where('quote_request_id', '=', sent.id)
    .executeTakeFirstOrThrow()
  expect(visit.called_off_at).toBe('2026-03-02T15:00:00Z')
})

test.each<Stage[][]>([
  [["can't do"]],
  [['quoted', 'not taken']],
  [['quoted', 'lapsed']],
  [['quoted', 'booked', 'done']],
])('it may not when %j', async stages => {
  const sent = await sentAndMoved(...stages)
  expect((await callOff(sent.ownPath)).status).toBe(409)
  expect((await app.browser().get(`${sent.ownPath}/call-off`)).headers.location).toBe(sent.ownPath)
  expect(await stageOf(sent.id)).toBe(stages.at(-1))
})

test('a day booked is given back', async () => {
  const sent = await sendRequest(app)
  const { id, revision, bookingPath } = await quoteRequest(app, sent.number, { laborHours: '3' })
  expect((await app.browser().get(sent.ownPath)).text).toContain(`href="${bookingPath}"`)
  await acceptAndBook(app.deps, id, { revision, typedName: 'Carol Reyes' }, '2026-03-09')
  const taken = () =>
    app.db.selectFrom('work_day').select('taken_hours').where('day', '=', '2026-03-09').executeTakeFirst()
  expect(Number((await taken())?.taken_hours)).toBe(3)
  const page = await app.browser().get(sent.ownPath)
  expect(page.text).toContain('We’ll mulch your beds on Monday, March 9')
  expect((await app.browser().get(`${sent.ownPath}/call-off`)).text).toContain('will go to someone else')
  expect((await callOff(sent.ownPath)).status).toBe(303)
  expect(Number((await taken())?.taken_hours)).toBe(0)
  expect((await standing(app, id)).days).toEqual([])
})

test('every stage has its words, in both languages', async () => {
  const stages: Stage[] = [
    'new',
    'visit set',
    'measured',
    'quoted',
    'booked',
    'part done',
    'done',
    'paid',
    'called off',
    'not taken',
    "can't do",
    'lapsed',
  ]
  const sent = await sendRequest(app)
  for (const stage of stages) {
    await app.db.updateTable('quote_request').set({ stage }).where('id', '=', sent.id).execute()
    for (const language of ['en', 'es']) {
      const answer = await app.browser().get(`${sent.ownPath}?language=${language}`)
      expect(answer.status).toBe(200)
      expect(answer.text).toMatch(/<p class="lead" data-sent>[^<{]{10,}<\/p>/)
    }
  }
})
