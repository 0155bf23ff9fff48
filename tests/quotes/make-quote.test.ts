import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { findNewestQuote } from '../../src/quotes/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { confirmQuote, hiddenFields, postQuote } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
let hugo: Browser

beforeAll(async () => {
  app = await testApp()
  // Shredded wood at 80 to 120: 100 in the middle.
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
  hugo = await helperBrowser(app)
})
beforeEach(() => app.setClock('2026-03-02T15:00:00Z'))
afterAll(() => app.close())

// 27 ft × 12 ft, 3 in deep: 81 ft³, which is 3 yd³ and 300.00; round it 78 ft of edge.
const THREE_YARDS = told(bedTold({ sizes: { length: '27 ft', width: '12 ft' } }))

function sendThreeYards(instead: Parameters<typeof sendRequest>[1] = {}) {
  return sendRequest(app, { told: THREE_YARDS, ...instead })
}

const PLAIN = { do: 'confirm', laborHours: '3', note: '', 'lines.0.amount': '300.00', 'lines.0.reason': '' }

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

describe('the price of a request', () => {
  it('shows quantities, labor hours and lines, and what would show cost and margin', async () => {
    const { number } = await sendThreeYards({ told: { ...THREE_YARDS, extras: ['edging'] } })
    const page = await owner.get(`/queue/${number}/quote`)
    expect(page.status).toBe(200)
    const words = page.text.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
    expect(words).toContain('3 cubic yards at $100.00')
    expect(words).toContain('$300.00')
    expect(words).toContain('78 feet at $2.00')
    expect(words).toContain('$156.00')
    expect(words).toMatch(/Total \$456 ?\.00/)
    expect(words).toMatch(/Area 324 ft²/)
    // With the allowance of 5 %.
    expect(words).toMatch(/Shredded hardwood mulch to order 3 ?\.15 yd³/)
    expect(words).toMatch(/Labor hours, spreading 3 ?\.00 h/)
    expect(words).toContain('To see cost, margin, and pay per hour here')
  })

  it('works the sums out again without making anything', async () => {
    const { id, number } = await sendThreeYards()
    const page = await confirm(number, {
      do: 'again',
      'lines.0.amount': '320',
      'lines.0.reason': 'a steep slope',
      'added.0.description': 'Old edging taken away',
      'added.0.amount': '45.50',
      'added.0.reason': 'asked for on the phone',
    })
    expect(page.status).toBe(200)
    expect(page.text.replace(/<[^>]*>/g, '')).toContain('365.50')
    expect(page.text).toContain('$300.00 before your change')
    expect(page.text).toContain('value="a steep slope"')
    expect(await revisionsOf(id)).toBe(0)
  })

  it('shows a line of its own again that was sent under a number with a gap before it', async () => {
    const { number } = await sendThreeYards()
    const line = { 'added.7.description': 'Rake', 'added.7.amount': 'x', 'added.7.reason': 'left there' }
    const page = await confirm(number, line)
    expect(page.status).toBe(422)
    expect(page.text).toContain('<a href="#added-0-amount">')
    expect(page.text).toMatch(/name="added\.0\.description"[^>]* value="Rake"/)
  })
})

describe('making a quote', () => {
  it('keeps the lines as worked out, until when it holds, a booking link and a mail', async () => {
    const { id, number } = await sendThreeYards()
    const answer = await confirm(number, { note: 'Walks swept afterwards.' })
    expect(answer.status).toBe(303)
    expect(answer.headers.location).toBe(`/queue/${number}/hand-over`)
    const quote = await requireQuote(id)
    expect(quote).toMatchObject({
      revision: 1,
      total: '300.00',
      currency: 'USD',
      labor_hours: '3.00',
      labor_hours_worked_out: '3.00',
      holds_until: '2026-04-01',
      note: 'Walks swept afterwards.',
      made_by_name: 'Alice Fern',
    })
    expect(quote.lines).toMatchObject([
      { kind: 'finish', slug: 'shredded-wood', worked_out: '300.00', amount: '300.00', reason: null },
    ])
    const links = await app.db
      .selectFrom('link')
      .select('revoked_at')
      .where('quote_request_id', '=', id)
      .where('purpose', '=', 'booking')
      .execute()
    expect(links).toEqual([{ revoked_at: null }])
    const page = await owner.get(`/queue/${number}`)
    expect(page.text).toContain('Quoted $300.00 (quote 1)')
    expect(page.text).toContain('Next: <strong>follow up</strong>')
    expect(page.text).toContain('Walks swept afterwards.')
    expect(await mails(id)).toEqual(['mail'])
  })

  it('counts the days it holds where the business is, not in UTC', async () => {
    const { id, number } = await sendThreeYards()
    app.setClock('2026-03-03T04:30:00Z')
    await confirm(number).then(answer => expect(answer.status).toBe(303))
    expect((await requireQuote(id)).holds_until).toBe('2026-04-01')
  })

  it('keeps changed and added lines with their reasons, and labor hours of the contractor’s own', async () => {
    const { id, number } = await sendThreeYards({ email: '' })
    await confirm(number, {
      'lines.0.amount': '$320',
      'lines.0.reason': 'a steep slope',
      'added.0.description': 'Third year running',
      'added.0.amount': '-25',
      'added.0.reason': 'as promised',
      laborHours: '4.5',
    })
    const quote = await requireQuote(id)
    expect(quote.total).toBe('295.00')
    expect(quote.labor_hours).toBe('4.50')
    expect(quote.labor_hours_worked_out).toBe('3.00')
    expect(quote.lines).toMatchObject([
      { worked_out: '300.00', amount: '320.00', reason: 'a steep slope' },
      {
        kind: 'other',
        description: 'Third year running',
        worked_out: null,
        amount: '-25.00',
        reason: 'as promised',
      },
    ])
    expect(await mails(id)).toEqual(['text'])
  })

  it('prices what was measured where something was', async () => {
    const { id, number } = await sendThreeYards()
    await owner
      .post(`/queue/${number}/visit`)
      .type('form')
      .send({ 'visit.date': '2026-03-05', 'visit.time': '09:00', 'visit.anyway': 'yes' })
    const bed = {
      shape: 'rectangle',
      'sizes.length': '27',
      'sizes.width': '16',
      count: '1',
      planted: 'open',
      lying: 'bare',
      finish: 'shredded-wood',
      depth: '3',
      told: '0',
    }
    const fields = Object.entries(bed).map(([name, typed]) => [`beds.0.${name}`, typed])
    await owner
      .post(`/queue/${number}/measurements`)
      .type('form')
      .send({ measuredBy: 'tape', ...Object.fromEntries(fields) })
      .expect(303)
    // 27 × 16 ft at 3 in is 108 ft³: 4 yd³ at 100.
    await confirm(number, { 'lines.0.amount': '400', laborHours: '4' })
    expect((await requireQuote(id)).total).toBe('400.00')
  })

  it('refuses a changed amount without a reason, and keeps all that was typed', async () => {
    const { id, number } = await sendThreeYards()
    const answer = await confirm(number, {
      'lines.0.amount': '280',
      note: 'Paths swept',
      laborHours: 'a day',
    })
    expect(answer.status).toBe(422)
    expect(answer.text).toContain('id="lines-0-reason-error"')
    expect(answer.text).toContain('id="laborHours-error"')
    expect(answer.text).toContain('value="280"')
    expect(answer.text).toContain('Paths swept')
    expect(await revisionsOf(id)).toBe(0)
  })

  it('is the owner’s alone', async () => {
    const { id, number } = await sendThreeYards()
    await expectOwnerOnly(app, hugo, 'get', `/queue/${number}/quote`)
    await expectOwnerOnly(app, hugo, 'post', `/queue/${number}/quote`)
    expect(await revisionsOf(id)).toBe(0)
  })

  it('is refused while a visit is set, and after the request has ended', async () => {
    const { id, number } = await sendThreeYards()
    const form = { ...(await hiddenFields(owner, number)), ...PLAIN }
    await owner
      .post(`/queue/${number}/visit`)
      .type('form')
      .send({ 'visit.date': '2026-03-05', 'visit.time': '09:00', 'visit.anyway': 'yes' })
    const refused = await owner.get(`/queue/${number}/quote`).expect(409)
    expect(refused.text).toContain('A visit is set')
    expect(refused.text).toContain(`href="/queue/${number}"`)
    await postQuote(owner, number, form).expect(409)
    await owner.post(`/queue/${number}/cannot-do`).type('form').send({ reason: 'far' }).expect(303)
    await postQuote(owner, number, form).expect(409)
    expect(await revisionsOf(id)).toBe(0)
  })

  it('shows the new sums first when the rates changed while the page was open', async () => {
    const { id, number } = await sendThreeYards()
    const form = { ...(await hiddenFields(owner, number)), ...PLAIN, basis: '0-0000000000000000' }
    const answer = await postQuote(owner, number, form)
    expect(answer.status).toBe(422)
    expect(answer.text).toContain('changed since you opened this page')
    expect(await revisionsOf(id)).toBe(0)
  })
})

async function mails(id: number): Promise<string[]> {
  const rows = await app.db
    .selectFrom('outbox')
    .select('way')
    .where('quote_request_id', '=', id)
    .where('kind', '=', 'quote-ready')
    .execute()
  return rows.map(({ way }) => way)
}
