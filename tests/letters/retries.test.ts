import { afterEach, beforeEach, expect, test } from 'vitest'
import { type MailServer, startMailServer } from '../helpers/mail-server.ts'
import { type MailingApp, mailingApp } from '../helpers/mailing.ts'
import { sendRequest } from '../helpers/requests.ts'
import { until } from '../helpers/until.ts'

let mailing: MailingApp
let servers: MailServer[] = []

beforeEach(async () => {
  mailing = await mailingApp()
})

afterEach(async () => {
  await mailing.close()
  await Promise.all(servers.map(server => server.stop()))
  servers = []
  expect(mailing.faults).toEqual([])
})

async function serverThat(...how: Parameters<typeof startMailServer>): Promise<MailServer> {
  const server = await startMailServer(...how)
  servers.push(server)
  return server
}

async function portOfNobody(): Promise<number> {
  const { port, stop } = await startMailServer()
  await stop()
  return port
}

const homeowners = () =>
  mailing.app.db
    .selectFrom('outbox')
    .selectAll()
    .where('recipient', '=', 'homeowner')
    .executeTakeFirstOrThrow()

const job = async () => {
  const { rows } = await mailing.app.store.executeSql(
    `select job.state, job.retry_count, extract(epoch from job.start_after - now())::float8 as due_in,
       extract(epoch from job.keep_until - now())::float8 as kept_for
     from pgboss.job join outbox on outbox.id::text = job.data->>'outboxId'
     where job.name = 'send-mail' and outbox.recipient = 'homeowner'`,
  )
  return rows[0] as { state: string; retry_count: number; due_in: number; kept_for: number }
}

test('a mail server that is down delays a mail and loses none, and it comes once', async () => {
  const port = await portOfNobody()
  await sendRequest(mailing.app)
  await mailing.sendBy(`smtp://127.0.0.1:${port}`)
  await until(async () => (await homeowners()).attempts >= 1, { within: 15_000 })
  expect(await homeowners()).toMatchObject({ sent_at: null, last_fault: 'ESOCKET' })
  const mailServer = await serverThat(undefined, port)
  await until(async () => (await job()).state === 'retry')
  await mailing.makeDue()
  await until(async () => (await homeowners()).sent_at, { within: 15_000 })
  await until(async () => (await job()).state === 'completed')
  const { id } = await homeowners()
  const arrived = mailServer.letters.filter(({ messageId }) => messageId === `<${id}@localhost>`)
  expect(arrived).toHaveLength(1)
  expect(await homeowners()).toMatchObject({ attempts: 2, last_fault: null })
})

test('after eight hours of tries a mail is still tried, every quarter of an hour', async () => {
  await sendRequest(mailing.app)
  await mailing.app.store.executeSql(
    `update pgboss.job set retry_count = 39, started_on = now(), state = 'retry' where name = 'send-mail'`,
  )
  await mailing.sendBy(`smtp://127.0.0.1:${await portOfNobody()}`)
  await until(async () => (await job()).retry_count === 40 && (await job()).state === 'retry', {
    within: 15_000,
  })
  const { due_in, kept_for } = await job()
  expect(due_in).toBeLessThanOrEqual(15 * 60)
  expect(kept_for).toBeGreaterThan(64 * 3600)
})

test('a repeat carries the same Message-ID and date', async () => {
  await sendRequest(mailing.app)
  const mailServer = await serverThat()
  await mailing.sendBy(mailServer.url)
  await until(async () => (await job()).state === 'completed', { within: 15_000 })
  const { id } = await homeowners()
  await mailing.app.db.updateTable('outbox').set({ sent_at: null }).where('id', '=', id).execute()
  await mailing.app.db.transaction().execute(trx => mailing.work.jobs.sendMail(trx, id))
  const both = await until(
    () => {
      const found = mailServer.letters.filter(({ messageId }) => messageId === `<${id}@localhost>`)
      return found.length === 2 && found
    },
    { within: 15_000 },
  )
  expect(both[1]!.date).toEqual(both[0]!.date)
  expect(both[0]!.date?.toISOString()).toBe('2026-03-02T15:00:00.000Z')
})

test('a mail that is refused for good is not tried again, and says so', async () => {
  const mailServer = await serverThat(address =>
    address === 'carol@example.com' ? { code: 550, words: 'no carol@example.com here' } : null,
  )
  await sendRequest(mailing.app)
  await mailing.sendBy(mailServer.url)
  await until(async () => (await job()).state === 'failed', { within: 15_000 })
  expect(await homeowners()).toMatchObject({
    sent_at: null,
    attempts: 1,
    last_fault: 'stopped: EENVELOPE 550',
  })
})

test('a mail that is refused for now is tried again', async () => {
  const mailServer = await serverThat(() => ({ code: 451, words: 'try later' }))
  await sendRequest(mailing.app)
  await mailing.sendBy(mailServer.url)
  await until(async () => (await job()).state === 'retry', { within: 15_000 })
  expect(await homeowners()).toMatchObject({ attempts: 1, last_fault: 'EENVELOPE 451' })
})

test('each gap is about twice the one before, until a quarter of an hour', async () => {
  for (let n = 0; n < 6; n++) await sendRequest(mailing.app, { phone: '', email: `gap${n}@example.com` })
  const { rows: jobs } = await mailing.app.store.executeSql(
    `select job.id from pgboss.job join outbox on outbox.id::text = job.data->>'outboxId'
     where outbox.recipient = 'homeowner' order by outbox.made_at, outbox.id`,
  )
  // It counts one more as it takes one up again.
  for (const [before, { id }] of (jobs.slice(1) as { id: string }[]).entries())
    await mailing.app.store.executeSql(
      `update pgboss.job set retry_count = ${before}, started_on = now(), state = 'retry' where id = '${id}'`,
    )
  await mailing.sendBy(`smtp://127.0.0.1:${await portOfNobody()}`)
  const gaps = await until(
    async () => {
      const { rows } = await mailing.app.store.executeSql(
        `select retry_count as tries, extract(epoch from start_after - now())::float8 as due_in
         from pgboss.job join outbox on outbox.id::text = job.data->>'outboxId'
         where outbox.recipient = 'homeowner' and attempts = 1 and state = 'retry' order by retry_count`,
      )
      return rows.length === 6 && (rows as { tries: number; due_in: number }[])
    },
    { within: 15_000 },
  )
  // Between 30 and 60 seconds after the first try, then twice that, each time; some seconds of it have passed.
  for (const [nth, { due_in }] of gaps.entries()) {
    expect(due_in).toBeLessThanOrEqual(Math.min(60 * 2 ** nth, 900))
    expect(due_in).toBeGreaterThan(Math.min(30 * 2 ** nth, 900) - 15)
  }
})
