import { sql } from 'kysely'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { acceptQuote } from '../../src/bookings/booking.ts'
import { findNewestQuote } from '../../src/quotes/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { confirmQuote, hiddenFields, postQuote } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  // Shredded wood at 80 to 120: 100 in the middle.
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
})
afterAll(() => app.close())

const PLAIN = { do: 'confirm', laborHours: '3', note: '', 'lines.0.amount': '300.00', 'lines.0.reason': '' }

// 81 ft³ is 3 yd³: 300.00.
function sendThreeYards() {
  return sendRequest(app, { told: told(bedTold({ sizes: { length: '27 ft', width: '12 ft' } })) })
}

function confirm(number: string, form: Record<string, string> = {}) {
  return confirmQuote(owner, number, { ...PLAIN, ...form })
}

async function requireQuote(id: number) {
  const quote = await findNewestQuote(app.db, id)
  if (!quote) throw new Error('There is no quote')
  return quote
}

async function revisionsOf(id: number): Promise<number> {
  const rows = await app.db.selectFrom('quote').select('id').where('quote_request_id', '=', id).execute()
  return rows.length
}

describe('one quote and no more', () => {
  it('takes the same form five times at once for one', async () => {
    const { id, number } = await sendThreeYards()
    const form = { ...(await hiddenFields(owner, number)), ...PLAIN }
    const answers = await Promise.all(Array.from({ length: 5 }, () => postQuote(owner, number, form)))
    expect(answers.map(answer => answer.status)).toEqual([303, 303, 303, 303, 303])
    expect(answers.filter(answer => answer.headers.location === `/queue/${number}/hand-over`)).toHaveLength(1)
    expect(await revisionsOf(id)).toBe(1)
    expect(await mails(id)).toBe(1)
    const page = await owner.get(`/queue/${number}`)
    expect(page.text).toContain('That quote was already made')
  })

  it('keeps one of five that differ, and tells the others', async () => {
    const { id, number } = await sendThreeYards()
    const hidden = await hiddenFields(owner, number)
    const answers = await Promise.all(
      [1, 2, 3, 4, 5].map(hours =>
        postQuote(owner, number, { ...hidden, ...PLAIN, laborHours: String(hours) }),
      ),
    )
    expect(answers.map(answer => answer.status).sort()).toEqual([303, 409, 409, 409, 409])
    expect(answers.find(answer => answer.status === 409)!.text).toContain('changed after you opened it')
    expect(await revisionsOf(id)).toBe(1)
  })

  it('makes a new revision while the quote is out, from what the one before said; only the newest can be accepted', async () => {
    const { id, number } = await sendThreeYards()
    await confirm(number, { 'lines.0.amount': '320', 'lines.0.reason': 'a steep slope', note: 'Swept.' })
    const first = await requireQuote(id)
    const page = await owner.get(`/queue/${number}/quote`)
    expect(page.text).toContain('value="a steep slope"')
    expect(page.text).toContain('Swept.')
    const answer = await confirm(number, { 'lines.0.amount': '310', 'lines.0.reason': 'less steep' })
    expect(answer.status).toBe(303)
    expect(await requireQuote(id)).toMatchObject({ revision: 2, total: '310.00' })
    const accepted = app.db
      .insertInto('acceptance')
      .values({ quote_id: first.id, typed_name: 'Carol', accepted_at: '2026-03-02T16:00:00Z' })
      .execute()
    await expect(accepted).rejects.toThrow(/newest revision/)
    const links = await app.db
      .selectFrom('link')
      .select('id')
      .where('quote_request_id', '=', id)
      .where('purpose', '=', 'booking')
      .execute()
    expect(links).toHaveLength(1)
  })
})

describe('the database', () => {
  it('refuses to change or remove a quote or a line of one', async () => {
    const { id, number } = await sendThreeYards()
    await confirm(number)
    const { id: quoteId } = await requireQuote(id)
    const attempts = [
      sql`update quote set total = 1 where id = ${quoteId}`,
      sql`delete from quote where id = ${quoteId}`,
      sql`update quote_line set amount = 1 where quote_id = ${quoteId}`,
      sql`delete from quote_line where quote_id = ${quoteId}`,
    ]
    for (const attempt of attempts)
      await expect(attempt.execute(app.db)).rejects.toThrow(/kept as they were made/)
  })

  it('refuses lines that do not add up to the total', async () => {
    const { id, number } = await sendThreeYards()
    await confirm(number)
    const { id: quoteId } = await requireQuote(id)
    const another = sql`insert into quote_line (quote_id, position, kind, description, amount, reason)
      values (${quoteId}, 9, 'other', 'more', 5, 'x')`
    await expect(another.execute(app.db)).rejects.toThrow(/add up to its total/)
  })
})

async function mails(id: number): Promise<number> {
  const rows = await app.db
    .selectFrom('outbox')
    .select('id')
    .where('quote_request_id', '=', id)
    .where('kind', '=', 'quote-ready')
    .execute()
  return rows.length
}

it('is made as a change only by whoever knows that the price was accepted meanwhile', async () => {
  const { id, number } = await sendThreeYards()
  await confirm(number)
  const stale: Record<string, string> = {
    ...(await hiddenFields(owner, number)),
    ...PLAIN,
    note: 'Two trips',
    laborHours: '4',
  }
  expect(stale.change).toBe('no')
  await acceptQuote(app.deps, id, { revision: 1, typedName: 'Carol Reyes' })
  const refused = await postQuote(owner, number, stale)
  expect(refused.status).toBe(422)
  expect(refused.text).toContain('accepted the price while this page was open')
  expect(refused.text).toContain('Two trips')
  expect(await revisionsOf(id)).toBe(1)
  expect(refused.text).toContain('<input type="hidden" name="change" value="yes">')
  expect((await postQuote(owner, number, { ...stale, change: 'yes' })).status).toBe(303)
  expect(await revisionsOf(id)).toBe(2)
})
