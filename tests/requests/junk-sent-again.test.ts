import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { JunkWatch } from '../../src/junk/watch.ts'
import { moveToQueue } from '../../src/requests/maybe-junk/decide.ts'
import { holdAsMaybeJunk } from '../../src/requests/maybe-junk/hold.ts'
import { SentMeanwhile } from '../../src/requests/maybe-junk/queries.ts'
import { sendQuoteRequest } from '../../src/requests/quote-request.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { JUNK, NO_BEDS, sendJunk } from '../helpers/maybe-junk.ts'
import { openBusiness } from '../helpers/people.ts'
import { BEDS, sendForm } from '../helpers/request-form.ts'
import { sending } from '../helpers/requests.ts'

const CAME = '2026-03-02T15:00:00Z'
let app: TestApp

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())
beforeEach(async () => {
  app.setClock(CAME)
  app.deps.load.junk = new JunkWatch(app.deps.now)
  await app.db.deleteFrom('maybe_junk').execute()
})

test('the same form many times at once, one way or the other, is one request with one page', async () => {
  const numbers = async () => [
    ...(await app.db.selectFrom('quote_request').select('number').execute()),
    ...(await app.db.selectFrom('maybe_junk').select('number').execute()),
  ]
  for (const fields of [JUNK, {}]) {
    const before = (await numbers()).length
    const submissionKey = randomUUID()
    const answers = await Promise.all(
      Array.from({ length: 12 }, () => sendForm(app, { ...fields, submissionKey })),
    )
    expect(new Set(answers.map(({ status, location }) => `${status} ${location}`)).size).toBe(1)
    expect((await numbers()).length).toBe(before + 1)
  }
})

test('where two processes weigh the same form otherwise, it stands in one of the tables all the same', async () => {
  const verdict = { points: 10, reasons: [] }
  const none = { beds: [], extras: [], postcode: '' }
  const tries = ['held', 'sent', 'at once'].map(first => ({
    first,
    sent: sending({ told: none, sentAs: 'look' }),
  }))
  for (const { first, sent } of tries) {
    const hold = () => holdAsMaybeJunk(app.deps, sent, null, verdict)
    const send = () => sendQuoteRequest(app.deps, sent)
    if (first === 'held') await hold()
    if (first === 'sent') await send()
    const results = await Promise.allSettled([hold(), send()])
    const refused = results.flatMap(result => (result.status === 'rejected' ? [result.reason] : []))
    expect(refused.filter(reason => !(reason instanceof SentMeanwhile))).toEqual([])
    const key = sent.submissionKey
    const held = await app.db
      .selectFrom('maybe_junk')
      .select('id')
      .where('submission_key', '=', key)
      .execute()
    const inQueue = await app.db
      .selectFrom('quote_request')
      .select('id')
      .where('submission_key', '=', key)
      .execute()
    expect([first, held.length + inQueue.length]).toEqual([first, 1])
  }
})

test('sent again after it moved, while it moves, or with other words from the same browser, it is the same one', async () => {
  const submissionKey = randomUUID()
  const { own, number } = await sendJunk(app, { ...JUNK, submissionKey })
  const [again] = await Promise.all([
    sendForm(app, { ...JUNK, submissionKey }),
    moveToQueue(app.deps, 1, number),
  ])
  expect(again.location).toBe(own)
  expect((await sendForm(app, { ...JUNK, submissionKey })).location).toBe(own)
  const found = await app.db
    .selectFrom('quote_request')
    .select('id')
    .where('submission_key', '=', submissionKey)
    .execute()
  expect(found).toHaveLength(1)
  expect(await app.db.selectFrom('maybe_junk').select('id').execute()).toEqual([])
})

test('the form says when it was given out, and says the same when it is shown again', async () => {
  const begunIn = (page: string) => /name="begun" value="([^"]+)"/.exec(page)![1]!
  const keyIn = (page: string) => /name="submissionKey" value="([^"]+)"/.exec(page)![1]!
  for (const address of [`/request?${new URLSearchParams(BEDS)}`, '/request?as=look']) {
    const as = address.includes('as=') ? { as: 'look', ...NO_BEDS } : {}
    app.setClock(CAME)
    const page = (await app.browser().get(address)).text
    const [begun, submissionKey] = [begunIn(page), keyIn(page)]
    app.setClock('2026-03-02T15:00:01Z')
    const refused = await sendForm(app, { ...as, submissionKey, begun, phone: '12' })
    expect([refused.status, begunIn(refused.text)]).toEqual([422, begun])
    expect(begunIn((await sendForm(app, { ...as, submissionKey, begun: 'x', phone: '12' })).text)).not.toBe(
      'x',
    )
    // Only a second after, which alone holds nothing.
    expect((await sendForm(app, { ...as, submissionKey, begun })).status).toBe(303)
    expect(await app.db.selectFrom('maybe_junk').select('id').execute()).toEqual([])
    // With a link or two it does, by its reasons.
    const more = { note: 'See a.example.com and b.example.com', name: 'Trudy' }
    const { reasons } = await sendJunk(app, { ...as, ...more, submissionKey, begun })
    expect(reasons.map(({ words }) => words)).toEqual(
      expect.arrayContaining(['Name and address were typed in 1 second', '2 links in the note']),
    )
    await app.db.deleteFrom('maybe_junk').execute()
  }
})
