import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { addNote } from '../../src/requests/changed-by-homeowner.ts'
import { LONGEST_NOTE, MOST_A_DAY } from '../../src/requests/enough-today.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { quotedRequest } from '../helpers/bookings.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

const START = '2026-03-02T15:00:00Z'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())
beforeEach(() => app.setClock(START))

const post = (path: string, fields: object) => app.browser().post(path).type('form').send(fields)
const noteOf = async (id: number) =>
  (await app.db.selectFrom('quote_request').select('note').where('id', '=', id).executeTakeFirstOrThrow())
    .note
const toOwner = async (id: number) =>
  (
    await app.db
      .selectFrom('outbox')
      .select('id')
      .where('quote_request_id', '=', id)
      .where('recipient', '=', 'owner')
      .execute()
  ).length

test('by one link so much a day is taken and told of; the next is refused beside its field, and kept', async () => {
  const { id, ownPath } = await sendRequest(app)
  for (let nth = 0; nth < MOST_A_DAY - 1; nth++) await addNote(app.deps, id, `Note ${nth}`)
  expect((await post(`${ownPath}/phone`, { phone: '512 555 0199' })).status).toBe(303)
  const mails = await toOwner(id)
  const note = await post(`${ownPath}/note`, { note: 'And the gate sticks.' })
  expect([note.status, note.text.includes('id="note-error"')]).toEqual([429, true])
  expect(note.text).toContain('And the gate sticks.')
  const phone = await post(`${ownPath}/phone`, { phone: '512 555 0188' })
  expect([
    phone.status,
    phone.text.includes('id="phone-error"'),
    phone.text.includes('512 555 0188'),
  ]).toEqual([429, true, true])
  expect([await toOwner(id), (await noteOf(id)).includes('sticks')]).toEqual([mails, false])
  // What stands already is no more than before.
  expect((await post(`${ownPath}/note`, { note: `Note ${MOST_A_DAY - 2}` })).status).toBe(303)
  app.setClock('2026-03-03T15:00:01Z')
  expect((await post(`${ownPath}/note`, { note: 'And the gate sticks.' })).status).toBe(303)
})

test('questions about the price count too', async () => {
  const { path } = await quotedRequest(app)
  for (let nth = 0; nth < MOST_A_DAY; nth++)
    expect((await post(`${path}/question`, { question: `Question ${nth}?` })).status).toBe(303)
  const one = await post(`${path}/question`, { question: 'One more?' })
  expect([one.status, one.text.includes('id="question-error"'), one.text.includes('One more?')]).toEqual([
    429,
    true,
    true,
  ])
})

test('a note is as long as it may be, however slowly it grows', async () => {
  const { id, ownPath } = await sendRequest(app, { note: 'x'.repeat(LONGEST_NOTE - 100) })
  const answer = await post(`${ownPath}/note`, { note: 'y'.repeat(100) })
  expect([answer.status, (await noteOf(id)).includes('y')]).toEqual([429, false])
  expect((await post(`${ownPath}/note`, { note: 'z'.repeat(98) })).status).toBe(303)
})
