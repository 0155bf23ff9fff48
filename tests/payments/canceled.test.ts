import { afterAll, beforeAll, expect, test } from 'vitest'
import { callOff } from '../../src/bookings/call-off.ts'
import { findHeld, findSettled } from '../../src/payments/queries.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest, depositRequest, standing } from '../helpers/bookings.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
})
afterAll(() => app.close())

const why = { whyCanceled: 'The truck broke' }
const BACK = { fateDay: '2026-03-02', fateWay: 'cash' }

/** A request that holds $20.00, canceled with such a form. */
async function canceled(fields: Record<string, string>) {
  const { id, number } = await depositRequest(app)
  const send = () =>
    owner
      .post(`/queue/${number}/cancel`)
      .type('form')
      .send({ ...why, ...fields })
  const answer = await send()
  const { step } = await app.db
    .selectFrom('quote_request')
    .select('step')
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
  const settled = await findSettled(app.db, id)
  const { stage } = await standing(app, id)
  return { answer, send, step, stage, settled: settled && [settled.kept, settled.back], id, number }
}

test.each([
  ['kept', {}, ['20.00', '0.00'], '20.00'],
  ['part', { fateBack: '5' }, ['15.00', '5.00'], '15.00'],
  ['back', {}, ['0.00', '20.00'], '0.00'],
])('canceled with its deposit %s, it never stands under Collect', async (fate, more, settled, held) => {
  const done = await canceled({ ...BACK, fate, ...more })
  expect([done.answer.status, done.stage, done.step, done.settled]).toEqual([
    303,
    'called off',
    null,
    settled,
  ])
  expect(await findHeld(app.db, done.id)).toBe(held)
  // Pressed again, nothing goes back twice.
  expect((await done.send()).status).toBe(303)
  expect(await findHeld(app.db, done.id)).toBe(held)
})

test('left open, it stands under Collect until that is said', async () => {
  for (const fields of [{ fate: 'later' }, {} as Record<string, string>]) {
    const { stage, step, settled } = await canceled(fields)
    expect([stage, step, settled]).toEqual(['called off', 'Collect', undefined])
  }
})

test('the homeowner canceled first: what the staff say of the deposit then is noted all the same, once', async () => {
  const { id, number } = await depositRequest(app)
  await callOff(app.deps, id, 'Moving')
  const send = (fate: string, fateWay = 'cash') =>
    owner
      .post(`/queue/${number}/cancel`)
      .type('form')
      .send({ ...why, ...BACK, fate, fateWay })
  for (const _press of [1, 2]) expect((await send('back')).status).toBe(303)
  for (const other of [send('kept'), send('back', 'check')]) {
    const { status, text } = await other
    expect([status, text.includes('settled the deposit another way')]).toEqual([422, true])
  }
  expect(await findSettled(app.db, id)).toMatchObject({ kept: '0.00', back: '20.00' })
  expect(await findHeld(app.db, id)).toBe('0.00')
  expect((await standing(app, id)).verbs.filter(verb => verb === 'called off')).toHaveLength(1)
})

test.each([
  ['more than is held', { fate: 'part', fateBack: '20.01' }],
  ['no amount of a part', { fate: 'part', fateBack: '' }],
  ['a day to come', { fate: 'back', fateDay: '2026-03-03' }],
  ['something that isn’t offered', { fate: 'burned' }],
])('refused with %s: nothing is canceled, and what was typed is there', async (_what, fields) => {
  const { answer, stage, settled } = await canceled({ ...BACK, ...fields })
  expect([answer.status, stage, settled]).toEqual([422, 'quoted', undefined])
  expect(answer.text).toContain('The truck broke')
})

test('the form asks where something is held, and nowhere else', async () => {
  const asks = async (number: string) =>
    (await owner.get(`/queue/${number}`)).text.includes('What becomes of the $20.00 you hold?')
  expect(await asks((await depositRequest(app)).number)).toBe(true)
  expect(await asks((await acceptedRequest(app)).number)).toBe(false)
})

test('the homeowner who cancels reads what is held, and that they hear what becomes of it', async () => {
  const page = async (id: number, language = 'en') => {
    const own = await findLinkPath(app.db, app.deps.secretKey, 'own page', id)
    return (await app.browser().get(`${own}/call-off`).set('accept-language', language)).text
  }
  const { id } = await depositRequest(app)
  expect(await page(id)).toContain('We have $20.00 from you. We’ll tell you whether you get all of it back')
  expect(await page(id, 'es')).toContain('Tenemos $20.00 suyos.')
  expect(await page((await acceptedRequest(app)).id)).not.toContain('from you')
})
