import { randomUUID } from 'node:crypto'
import { expect, test } from 'vitest'
import { openStore } from '../../src/db/open.ts'
import { emptyStore, startBedwright } from '../helpers/process.ts'
import { bedTold, sending } from '../helpers/requests.ts'
import { formBody, setUpAt, setUpLine } from '../helpers/set-up.ts'
import { until } from '../helpers/until.ts'

const WORKERS = 6
const ENOUGH = 20

/** The form of one quote request, as posted; its name tells it apart. */
function requestForm(name: string): Record<string, string> {
  const { told: _, language: __, sentAs: ___, photos: ____, ...contact } = sending({ name })
  const { sizes, extras: _none, toldBed: _unset, stop: _nowhere, ...bed } = bedTold()
  const fields = { ...bed, ...prefixed(sizes, 'sizes.') } as Record<string, string>
  return { ...contact, ...prefixed(fields, 'beds.0.') }
}

const prefixed = (fields: Record<string, string>, prefix: string) =>
  Object.fromEntries(Object.entries(fields).map(([name, value]) => [prefix + name, value]))

test('SIGTERM under load loses nothing that was acknowledged, and ends it in time', {
  timeout: 120_000,
}, async () => {
  const environment = await emptyStore()
  const bedwright = startBedwright({ ...environment, TRUSTED_PROXY: '127.0.0.1' })
  const address = await bedwright.address()
  expect((await setUpAt(address, new URL(await setUpLine(bedwright)).pathname)).status).toBe(303)

  const acknowledged: string[] = []
  const otherAnswers: number[] = []
  const keepSending = async (worker: number) => {
    while (bedwright.child.exitCode === null) {
      const name = `Carol ${randomUUID()}`
      const headers = { origin: address, 'x-forwarded-for': `192.0.2.${worker}` }
      const body = formBody(requestForm(name))
      const answer = await fetch(`${address}/requests`, { method: 'POST', headers, body, redirect: 'manual' })
      if (answer.status === 303) acknowledged.push(name)
      else otherAnswers.push(answer.status)
    }
  }
  const senders = Array.from({ length: WORKERS }, (_, worker) => keepSending(worker).catch(() => 'cut off'))
  await until(() => acknowledged.length >= ENOUGH, { within: 30_000, what: 'some load' })

  const asked = performance.now()
  bedwright.child.kill('SIGTERM')
  expect(await bedwright.ended()).toBe(0)
  // Ten seconds of grace for whoever is being answered, and the closing of what is behind.
  expect(performance.now() - asked).toBeLessThan(15_000)
  await Promise.all(senders)
  // 503 is what a connection gets that was open already when the stop began.
  expect(otherAnswers.filter(status => status !== 503)).toEqual([])

  const { DATA_DIR: dataDir, DATABASE_URL: databaseUrl } = environment
  const store = await openStore({ dataDir: dataDir!, databaseUrl })
  const { rows } = await store.executeSql(`
    select customer.name, count(distinct history.id) as histories, count(distinct outbox.id) as mails,
      count(distinct ballpark.id) as ballparks
    from quote_request join customer on customer.id = customer_id
      left join history on history.quote_request_id = quote_request.id
      left join outbox on outbox.quote_request_id = quote_request.id
      left join ballpark on ballpark.quote_request_id = quote_request.id
    group by customer.name`)
  // So many without a form's time are held as maybe junk in the end: those are kept too.
  const { rows: held } = await store.executeSql(`select sending->>'name' as name from maybe_junk`)
  await store.close()
  const kept = new Map((rows as { name: string }[]).map(row => [row.name, row]))
  const heldNames = new Set((held as { name: string }[]).map(({ name }) => name))
  expect(acknowledged.filter(name => !kept.has(name) && !heldNames.has(name))).toEqual([])
  for (const row of kept.values()) expect(row).toMatchObject({ histories: 1, mails: 2, ballparks: 1 })
})
