import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { deliver } from '../../src/letters/deliver.ts'
import { faultInWords, HOUR_FULL } from '../../src/letters/faults.ts'
import { MAILS_AN_HOUR, reserve } from '../../src/letters/mail-limits.ts'
import type { Mailer } from '../../src/letters/smtp.ts'
import { messages } from '../../src/messages.ts'
import { TOO_MANY } from '../../src/outbox/given-up.ts'
import { confirmAddress } from '../../src/requests/confirm-address.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
/** The addresses that mails went to. */
let sent: string[]
let down: boolean

const mailer: Mailer = {
  send: async ({ to }) => {
    if (down) throw Object.assign(new Error('nobody there'), { code: 'ESOCKET' })
    sent.push(to.address)
  },
  close: () => {},
}

beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
beforeEach(() => {
  inAnHour()
  sent = []
  down = false
})
afterAll(() => app.close())

const sendOut = (id: string) => deliver({ ...app.deps, messages }, mailer, id)
const inAnHour = () => app.setClock(app.deps.now().add({ hours: 1 }).toString())
const thisHour = () => app.deps.now().round({ smallestUnit: 'hour', roundingMode: 'floor' }).toString()

/** Puts one mail more to the homeowner of a request into the outbox, and gives its id. */
async function mailTo(quoteRequestId: number): Promise<string> {
  const { id } = await app.db
    .insertInto('outbox')
    .values({
      id: crypto.randomUUID(),
      kind: 'request-received',
      recipient: 'homeowner',
      quote_request_id: quoteRequestId,
      made_at: app.deps.now().toString(),
      tried_from: app.deps.now().toString(),
      sent_at: null,
      last_fault: null,
    })
    .returning('id')
    .executeTakeFirstOrThrow()
  return id
}

async function ownersMail(quoteRequestId: number): Promise<string> {
  const { id } = await app.db
    .selectFrom('outbox')
    .select('id')
    .where('quote_request_id', '=', quoteRequestId)
    .where('recipient', '=', 'owner')
    .executeTakeFirstOrThrow()
  return id
}

const row = (id: string) =>
  app.db
    .selectFrom('outbox')
    .select(['sent_at', 'last_fault', 'attempts'])
    .where('id', '=', id)
    .executeTakeFirstOrThrow()

/** Has the hour begin as if so many mails more had gone out to some. */
async function alreadySent(mails: number, ...counted: string[]) {
  const rows = counted.map(one => ({ counted: one, hour: thisHour(), mails }))
  await app.db
    .insertInto('mail_hour')
    .values(rows)
    .onConflict(conflict => conflict.columns(['counted', 'hour']).doUpdateSet({ mails }))
    .execute()
}

test('to an address that nobody confirmed three go out in an hour, however it is spelled; a fourth is given up', async () => {
  const spelled = ['carol@example.com', 'Carol@Example.COM', 'carol+beds@example.com', 'carol@example.com']
  const outcomes: string[] = []
  let last = ''
  for (const email of spelled) {
    const { id } = await sendRequest(app, { email })
    last = await mailTo(id)
    outcomes.push(await sendOut(last))
  }
  expect(outcomes).toEqual(['done', 'done', 'done', 'stopped'])
  expect(sent).toHaveLength(3)
  expect(await row(last)).toEqual({ sent_at: null, last_fault: TOO_MANY, attempts: 1 })
  const said = 'Not sent: 3 emails went to this address within the hour'
  expect((await owner.get('/outbox')).text).toContain(said)
  const { id } = await sendRequest(app, { email: 'dave@example.com' })
  expect(await sendOut(await mailTo(id))).toBe('done')
  inAnHour()
  const { id: later } = await sendRequest(app)
  expect(await sendOut(await mailTo(later))).toBe('done')
})

test('of forty that are sent at once to one such address three are', async () => {
  const to = { address: 'carol@example.com', unconfirmed: true }
  const reserved = await Promise.all(
    Array.from({ length: 40 }, () => reserve(app.db, app.deps.secretKey, to, app.deps.now())),
  )
  expect(reserved.filter(one => one !== 'stopped')).toHaveLength(3)
  const { mails } = await app.db
    .selectFrom('mail_hour')
    .select('mails')
    .where('counted', '=', 'all')
    .where('hour', '=', thisHour())
    .executeTakeFirstOrThrow()
  expect(mails).toBe(3)
})

test('strangers’ mails to one address leave it those to whoever confirmed it', async () => {
  const { id } = await sendRequest(app)
  await confirmAddress(app.deps, id)
  for (let n = 0; n < 4; n += 1) await sendOut(await mailTo((await sendRequest(app)).id))
  expect(sent).toHaveLength(3)
  expect(await sendOut(await mailTo(id))).toBe('done')
})

test('when all addresses that nobody confirmed have had enough, their mails wait; the owner’s don’t', async () => {
  await alreadySent(MAILS_AN_HOUR.unconfirmed - 1, 'unconfirmed')
  const first = await sendRequest(app, { email: 'carol@example.com' })
  const second = await sendRequest(app, { email: 'dave@example.com' })
  expect(await sendOut(await mailTo(first.id))).toBe('done')
  const waiting = await mailTo(second.id)
  expect(await sendOut(waiting)).toBe('again')
  expect(await row(waiting)).toEqual({ sent_at: null, last_fault: HOUR_FULL, attempts: 0 })
  expect(faultInWords(HOUR_FULL, 0)).toContain('go out later')
  expect(await sendOut(await ownersMail(second.id))).toBe('done')
  inAnHour()
  expect(await sendOut(waiting)).toBe('done')
  expect(await row(waiting)).toMatchObject({ last_fault: null, attempts: 1 })
})

test('there is a limit for a confirmed address and the owner’s, and one for all; beyond them mails wait', async () => {
  const { id } = await sendRequest(app)
  await confirmAddress(app.deps, id)
  expect(await sendOut(await mailTo(id))).toBe('done')
  await app.db
    .updateTable('mail_hour')
    .set({ mails: MAILS_AN_HOUR.address })
    .where('counted', '<>', 'all')
    .execute()
  expect(await sendOut(await mailTo(id))).toBe('again')
  expect(await sendOut(await ownersMail(id))).toBe('done')
  await alreadySent(MAILS_AN_HOUR.all, 'all')
  const other = await sendRequest(app, { email: 'dave@example.com' })
  expect(await sendOut(await mailTo(other.id))).toBe('again')
  expect(await sendOut(await ownersMail(other.id))).toBe('again')
})

test('a mail server that is down uses nothing up', async () => {
  const { id } = await sendRequest(app)
  const mail = await mailTo(id)
  down = true
  for (let n = 0; n < 5; n += 1) expect(await sendOut(mail)).toBe('again')
  down = false
  for (let n = 0; n < 3; n += 1) expect(await sendOut(await mailTo(id))).toBe('done')
  expect(await sendOut(mail)).toBe('stopped')
})

test('what is counted tells no address', async () => {
  const { id } = await sendRequest(app)
  await sendOut(await mailTo(id))
  await confirmAddress(app.deps, id)
  await sendOut(await mailTo(id))
  const rows = await app.db.selectFrom('mail_hour').selectAll().where('hour', '=', thisHour()).execute()
  expect(rows).toHaveLength(4)
  expect(JSON.stringify(rows)).not.toMatch(/carol|example|@/i)
})
