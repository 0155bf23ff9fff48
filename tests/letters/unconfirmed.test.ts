import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { acceptAndBook } from '../../src/bookings/booking.ts'
import { type Letter, writeLetter } from '../../src/letters/letter.ts'
import { messages } from '../../src/messages.ts'
import { findOutboxMessage } from '../../src/outbox/queries.ts'
import { confirmAddress } from '../../src/requests/confirm-address.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { keepMeasurements, setVisit } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let ownerId: number
let id: number
let number: string

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  ownerId = (await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()).id
})
beforeEach(async () => {
  const sent = await sendRequest(app, TYPED)
  id = sent.id
  number = sent.number
})
afterAll(() => app.close())

/** A stranger types what he would have the business mail to Carol; each text is found by its mark. */
const TYPED = {
  email: 'carol@example.com',
  name: 'Xq-name buy at http://evil.example',
  phone: '(555) 010-7391',
  street: 'Xq-street 1',
  postcode: '97531',
  gate: 'Xq-gate',
  dog: 'Xq-dog',
  preferredTimes: 'Xq-times',
  note: 'Xq-note\n<b>evil</b>',
  told: told(bedTold({ depth: '2.71828 in', sizes: { length: '27.1828 ft', width: '12 ft' } })),
}
const MARKS = /Xq-|evil|7391|97531|27\.?18/

/** Has everything happen that homeowners hear of by mail; gives all that is written on the way. */
async function writtenOnTheWay(how = {}) {
  const visit = app.deps.now().add({ hours: 48 })
  const steps = [
    () => setVisit(app.deps, ownerId, id, visit),
    () => keepMeasurements(app.deps, ownerId, id, TYPED.told),
    () => quoteRequest(app, number),
    () => quoteRequest(app, number, { laborHours: '1', note: 'As we said' }),
    () => acceptAndBook(app.deps, id, { revision: 2, typedName: 'Xq-accepted' }, '2026-03-05'),
  ]
  const written: Awaited<ReturnType<typeof letters>> = []
  for (const step of steps) {
    await step()
    written.push(...(await letters(how)))
  }
  return written
}

/** Every mail to the homeowner as it would be sent now, by what it is about. */
async function letters(how = {}): Promise<{ kind: string; letter: Letter }[]> {
  const rows = await app.db
    .selectFrom('outbox')
    .select(['id', 'kind'])
    .where('quote_request_id', '=', id)
    .where('recipient', '=', 'homeowner')
    .execute()
  const written = rows.map(async row => ({
    kind: row.kind,
    letter: await writeLetter({ ...app.deps, messages }, (await findOutboxMessage(app.db, row.id))!, how),
  }))
  return (await Promise.all(written)).flatMap(({ kind, letter }) => (letter ? [{ kind, letter }] : []))
}

const kindsOf = (written: { kind: string }[]) => [...new Set(written.map(({ kind }) => kind))].sort()
const linkOf = (purpose: 'email address' | 'own page') =>
  findLinkPath(app.db, app.deps.secretKey, purpose, id)

const EVERY = ['day-booked', 'quote-ready', 'request-received', 'visit-set']

test('to an address that is not confirmed no mail holds what was typed, in any part', async () => {
  const written = await writtenOnTheWay()
  expect(kindsOf(written)).toEqual(EVERY)
  const own = await linkOf('own page')
  for (const { letter } of written) {
    expect(letter.to).toEqual({ name: '', address: 'carol@example.com' })
    expect(JSON.stringify(letter)).not.toMatch(MARKS)
    expect(letter.text).toMatch(/^Hello,\n/)
    // The own page shows all that was typed.
    expect(letter.text).not.toContain(own)
  }
  const texts = written.map(({ letter }) => letter.text).join()
  expect(texts).toContain(`http://localhost:8080${await linkOf('email address')}\n`)
  expect(texts).toContain(number)
})

test('nor in Spanish', async () => {
  await app.db.updateTable('quote_request').set({ language: 'es' }).where('id', '=', id).execute()
  for (const { letter } of await writtenOnTheWay()) {
    expect(JSON.stringify(letter)).not.toMatch(MARKS)
    expect(letter.text).toMatch(/^Hola:\n/)
  }
})

test('to a confirmed one they hold name and place, and there is one mail with all that was sent', async () => {
  await confirmAddress(app.deps, id)
  const written = await writtenOnTheWay()
  expect(kindsOf(written)).toEqual([...EVERY, 'receipt'].sort())
  const own = `http://localhost:8080${await linkOf('own page')}\n`
  for (const { kind, letter } of written) {
    expect(letter.to.name).toBe(TYPED.name)
    expect(letter.text).toContain(`Hello ${TYPED.name},`)
    if (kind !== 'request-received') expect(letter.text).toContain('Xq-street 1')
    if (kind !== 'quote-ready') expect(letter.text).toContain(own)
    expect(letter.text).not.toContain('/c/')
  }
  const { letter } = written.find(({ kind }) => kind === 'receipt')!
  for (const part of [number, 'Xq-street 1, 97531', TYPED.note, 'will probably cost $', own])
    expect(letter.text).toContain(part)
  expect(letter.html).toContain('&lt;b&gt;evil&lt;/b&gt;')
})

test('a text to be passed on by hand has the own page, and never the link that only a mail may bring', async () => {
  const confirm = (await linkOf('email address'))!
  const written = await writtenOnTheWay({ byHand: true })
  expect(kindsOf(written)).toEqual(EVERY)
  for (const { kind, letter } of written) {
    expect(JSON.stringify(letter)).not.toMatch(MARKS)
    expect(letter.text).not.toContain(confirm)
    if (kind !== 'quote-ready') expect(letter.text).toContain(await linkOf('own page'))
  }
  const { text } = await owner.get('/outbox')
  const encoded = encodeURIComponent(confirm)
  const links = (scheme: string) => [...text.matchAll(new RegExp(`href="${scheme}:[^"]*"`, 'g'))].map(String)
  expect(links('mailto').some(link => link.includes(encoded))).toBe(true)
  expect(links('sms').some(link => link.includes(encoded))).toBe(false)
  expect(text).not.toContain(confirm)
})

test('a request from before there were such links gets one with its next mail', async () => {
  await app.db
    .deleteFrom('link')
    .where('purpose', '=', 'email address')
    .where('quote_request_id', '=', id)
    .execute()
  const { letter } = (await letters())[0]!
  expect(JSON.stringify(letter)).not.toMatch(MARKS)
  expect(letter.text).not.toMatch(/\/c\/|\/r\/|the link/)
  await setVisit(app.deps, ownerId, id, app.deps.now().add({ hours: 48 }))
  const confirm = await linkOf('email address')
  const visit = (await letters()).find(({ kind }) => kind === 'visit-set')!
  expect(visit.letter.text).toContain(`http://localhost:8080${confirm}\n`)
})
