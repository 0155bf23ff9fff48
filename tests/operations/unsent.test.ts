import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { readOutbox } from '../../src/letters/outbox-page.ts'
import { messages } from '../../src/messages.ts'
import { checkMessages } from '../../src/operations/check-messages.ts'
import { measure } from '../../src/operations/metrics.ts'
import { findUnsent } from '../../src/operations/unsent.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { sendRequest } from '../helpers/requests.ts'

const NOW = '2026-03-20T15:00:00Z'
const HOUR = { recipient: 'homeowner', hours: 1 } as const
let app: TestApp
let requestId: number
let accountId: number

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  await sendRequest(app)
  app.setClock(NOW)
  requestId = (await app.db.selectFrom('quote_request').select('id').executeTakeFirstOrThrow()).id
  accountId = (await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()).id
})
afterAll(() => app.close())

interface Put {
  recipient?: 'homeowner' | 'owner' | 'account'
  hours: number
  way?: 'mail' | 'text'
  fault?: string
  daily?: boolean
}

/** Empties the outbox, and puts messages into it that are so many hours old. */
async function fill(puts: Put[]): Promise<void> {
  await app.db.deleteFrom('outbox').execute()
  const rows = puts.map(({ recipient = 'homeowner', hours, way = 'mail', fault, daily }) => {
    const at = Temporal.Instant.from(NOW).subtract({ hours }).toString()
    return {
      id: randomUUID(),
      kind: recipient === 'homeowner' ? 'request-received' : 'request-arrived',
      recipient,
      way,
      quote_request_id: recipient === 'account' ? null : requestId,
      account_id: recipient === 'account' ? accountId : null,
      made_at: at,
      tried_from: at,
      sent_at: null,
      last_fault: fault ?? null,
      for_digest: daily ?? false,
    }
  })
  await app.db.insertInto('outbox').values(rows).execute()
}

const withServer = () => ({
  ...app.deps,
  messages,
  config: { ...app.deps.config, smtpUrl: 'smtp://mail.example' },
})
const withNone = () => ({ ...app.deps, messages })

test('what was given up after three days doesn’t wait, and the page Outbox says the same', async () => {
  await fill([HOUR, { hours: 71 }, { hours: 73 }, { hours: 900 }, { hours: 900, fault: 'unreachable' }])
  const outbox = await readOutbox(withServer(), null)
  expect([outbox.waiting.length, outbox.failed.length]).toEqual([2, 3])
  const unsent = await findUnsent(withServer())
  expect(unsent).toMatchObject({ waiting: 2, by_hand: 0, stopped: 0, given_up: 3 })
  expect(Temporal.Instant.from(unsent.oldest_mail!).toString()).toBe('2026-03-17T16:00:00Z')
})

test('mail that was given up is worth a look, for ever wrong it is not', async () => {
  await fill([{ hours: 73 }, { hours: 900 }])
  expect(await checkMessages(withServer())).toMatchObject({
    is: 'look',
    says: '0 messages are waiting, 0 not accepted, 2 given up after three days.',
  })
  await fill([{ hours: 71 }])
  expect(await checkMessages(withServer())).toMatchObject({ is: 'wrong' })
})

test('a message that waits for the day’s summary waits as it should', async () => {
  await fill([{ recipient: 'owner', hours: 20, daily: true }])
  expect((await readOutbox(withServer(), null)).waiting).toHaveLength(1)
  expect(await findUnsent(withServer())).toMatchObject({ waiting: 1, given_up: 0, oldest_mail: null })
  expect(await checkMessages(withServer())).toMatchObject({ is: 'good' })
})

test('a letter about signing in is no message of the Outbox once it is out of date', async () => {
  await fill([
    { recipient: 'account', hours: 900 },
    { recipient: 'account', hours: 900, fault: 'stopped: no address' },
  ])
  const outbox = await readOutbox(withServer(), null)
  expect([...outbox.waiting, ...outbox.failed]).toEqual([])
  expect(await findUnsent(withServer())).toMatchObject({ waiting: 0, stopped: 0, given_up: 0, oldest: null })
  await fill([{ recipient: 'account', hours: 2 }])
  expect(await findUnsent(withServer())).toMatchObject({ waiting: 1 })
})

test('without a mail server what is passed on by hand waits for two weeks, and the owner’s own is none of it', async () => {
  await fill([
    HOUR,
    { hours: 13 * 24 },
    { hours: 15 * 24 },
    { hours: 2, way: 'text' },
    { hours: 2, fault: 'stopped: no address' },
    { hours: 2, fault: 'dropped: by the owner' },
    { recipient: 'owner', hours: 2 },
  ])
  const outbox = await readOutbox(withNone(), null)
  expect([outbox.byHand.length, outbox.failed.length, outbox.waiting.length]).toEqual([3, 1, 0])
  expect(await findUnsent(withNone())).toMatchObject({ waiting: 0, by_hand: 3, stopped: 1, given_up: 0 })
  expect((await checkMessages(withNone())).says).toBe(
    '3 messages are waiting for you to send. There’s no mail server.',
  )
})

test('texts without a gateway are waiting for a hand beside a mail server too', async () => {
  await fill([HOUR, { hours: 100, way: 'text' }])
  const outbox = await readOutbox(withServer(), null)
  expect([outbox.byHand.length, outbox.waiting.length]).toEqual([1, 1])
  expect(await findUnsent(withServer())).toMatchObject({ waiting: 1, by_hand: 1 })
  expect((await checkMessages(withServer())).says).toBe(
    '1 message is waiting, 1 for you to send, 0 not accepted, 0 given up after three days.',
  )
})

test('the metrics count the same', async () => {
  await fill([HOUR, { hours: 900 }, { hours: 2, way: 'text' }, { hours: 2, fault: 'stopped: refused' }])
  const text = await measure(app.store, withServer().config, app.deps.now).text()
  expect(text.match(/^bedwright_outbox_.*/gm)).toEqual([
    'bedwright_outbox_messages{state="waiting"} 1',
    'bedwright_outbox_messages{state="by hand"} 1',
    'bedwright_outbox_messages{state="not accepted"} 1',
    'bedwright_outbox_messages{state="given up"} 1',
    'bedwright_outbox_oldest_seconds 7200',
  ])
})
