import { afterAll, beforeAll, expect, test } from 'vitest'
import { moveWork } from '../../src/bookings/move.ts'
import { findFigures } from '../../src/closing/figures.ts'
import { findClosing } from '../../src/closing/queries.ts'
import { writeLetter } from '../../src/letters/letter.ts'
import { messages } from '../../src/messages.ts'
import { findOutboxMessage } from '../../src/outbox/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { bookedToday, standing } from '../helpers/bookings.ts'
import { listPacks } from '../helpers/on-hand.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  await listPacks(app)
})
afterAll(() => app.close())

const TODAY = '2026-03-02'
const DONE = { version: '1', outcome: 'done', firstDay: TODAY, lastDay: TODAY }

const tell = (who: Browser, number: string, fields: Record<string, string>) =>
  who
    .post(`/days/jobs/${number}/went`)
    .type('form')
    .send({ ...DONE, ...fields })

async function onHand(): Promise<number> {
  const rows = await app.db
    .selectFrom('on_hand')
    .select('units')
    .where('slug', '=', 'shredded-wood')
    .execute()
  return rows.reduce((sum, { units }) => sum + Number(units), 0)
}

test('the rest of what is part done is moved by the office like any other, never before a day that was worked', async () => {
  const job = await bookedToday(app, '0.25')
  await tell(owner, job.number, { outcome: 'part done', restDay: '2026-03-12', restHours: '1.5' })
  const page = (await owner.get(`/queue/${job.number}`)).text
  expect(page).toContain('Move the rest to another day')
  expect(page).toContain('<input type="hidden" name="from" value="2026-03-12">')
  expect(page).not.toContain(`<option value="${TODAY}"`)
  const move = (from: string, newDay: string) =>
    owner.post(`/queue/${job.number}/move`).type('form').send({ from, newDay })
  expect((await move(TODAY, '2026-03-13')).text).toContain('The day has changed')
  expect((await move('2026-03-12', TODAY)).text).toContain('That day has just filled up')
  for (const status of [303, 303]) expect((await move('2026-03-12', '2026-03-13')).status).toBe(status)
  const { stage, days, verbs, mails } = await standing(app, job.id)
  expect({ stage, days }).toEqual({
    stage: 'part done',
    days: [
      { day: TODAY, hours: '0.25' },
      { day: '2026-03-13', hours: '1.50' },
    ],
  })
  expect(verbs.filter(verb => verb === 'work moved')).toHaveLength(1)
  expect(mails.filter(kind => kind === 'day-moved')).toHaveLength(1)
  const row = app.db.selectFrom('quote_request').select(['step', 'due_at']).where('id', '=', job.id)
  expect(await row.executeTakeFirst()).toMatchObject({
    step: 'Load',
    due_at: expect.stringContaining('2026-03-13'),
  })
  const { id } = await app.db
    .selectFrom('outbox')
    .select('id')
    .where('quote_request_id', '=', job.id)
    .where('kind', '=', 'day-moved')
    .executeTakeFirstOrThrow()
  const letter = await writeLetter({ ...app.deps, messages }, (await findOutboxMessage(app.db, id))!)
  expect(letter?.subject).toContain('Friday, March 13')
  expect(letter?.text).not.toContain('March 2')
  await expect(
    moveWork(app.deps, job.id, { from: '2026-03-13', to: '2026-03-16' }, { kind: 'homeowner' }),
  ).rejects.toThrow('moves.not-booked')
})

test('opened again, what it left over comes off on hand; of what is used already the owner is told', async () => {
  const before = await onHand()
  const left = { 'left.0': '2.5', 'goes.0': 'on hand' }
  const [back, used] = [await bookedToday(app, '0.25'), await bookedToday(app, '0.25')]
  await tell(owner, back.number, left)
  expect((await onHand()) - before).toBe(2.5)
  const reopen = async (number: string) => {
    const answer = await owner.post(`/queue/${number}/reopen`).type('form').send({ version: '2' })
    expect(answer.status).toBe(303)
    return (await owner.get(`/queue/${number}`)).text
  }
  for (const _ of [1, 2]) expect(await reopen(back.number)).not.toContain('used already')
  expect((await onHand()) - before).toBe(0)

  await tell(owner, used.number, left)
  const closing = (await findClosing(app.db, used.id))!
  const { pack } = (await findFigures(app.db, closing.id)).left[0]!
  const { units, id } = await app.db
    .selectFrom('on_hand')
    .select(['id', 'units'])
    .where('slug', '=', 'shredded-wood')
    .where('pack', '=', pack)
    .executeTakeFirstOrThrow()
  // All but one is taken by hand.
  await owner
    .post(`/on-hand/${id}`)
    .type('form')
    .send({ units: '1', seen: String(Number(units)), note: '' })
  expect(await reopen(used.number)).toContain('is used already')
  const row = app.db.selectFrom('on_hand').select('units').where('id', '=', id)
  expect(Number((await row.executeTakeFirstOrThrow()).units)).toBe(0)
  // What is said of it next counts from what it brought.
  await tell(owner, used.number, { ...left, version: '3' })
  expect(Number((await row.executeTakeFirstOrThrow()).units)).toBe(1)
})
