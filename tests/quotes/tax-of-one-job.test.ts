import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Tax } from '../../src/estimate/table/tax.ts'
import { findNewestQuote } from '../../src/quotes/queries.ts'
import { taxedOnly } from '../estimate/taxes.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { type Browser, openBusiness } from '../helpers/people.ts'
import { confirmQuote, hiddenFields, postQuote } from '../helpers/quotes.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'
import { bookingWords, changeRates, chargeTax, linesOf, plain, sendThreeYards } from './quoting.ts'

let app: TestApp
let owner: Browser

beforeAll(async () => {
  app = await testApp()
  // Shredded wood at 80 to 120: 300 for three yards, in the middle.
  owner = (await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })).owner
})
afterAll(() => app.close())

const words = (html: string) => html.replace(/<[^>]*>/g, '').replace(/\s+/g, ' ')
const second = { rate: '0.015', newRate: null, name: { en: 'City tax', es: 'Impuesto municipal' } }
const needsCertificate: Partial<Tax> = {
  taxed: { upkeep: taxedOnly('all'), new: taxedOnly() },
  newWork: { rate: null, name: { en: null, es: null }, certificate: true, asked: true },
}

describe('a rate typed for one job', () => {
  const own = { taxRate: '6.25 %', taxReason: 'in between two towns' }

  it('is kept with the quote and its reason, in its lines, its worksheet and the next quote', async () => {
    await chargeTax(app, { second })
    const { id, number } = await sendThreeYards(app)
    expect((await confirmQuote(owner, number, { ...plain, ...own })).status).toBe(303)
    // 6.25 % and 1.5 % of 300.
    expect(await linesOf(app, id)).toEqual(['finish 300.00', 'tax 18.75', 'tax 4.50', '323.25'])
    const { terms } = (await findNewestQuote(app.db, id))!
    expect(terms.rates).toEqual({ rate: '0.0625', second: null, reason: 'in between two towns' })
    const sheet = words((await owner.get(`/queue/${number}/worksheet`)).text)
    expect(sheet).toContain('Rate for this job (in between two towns), instead of 8.25% and 1.5%')
    const next = (await owner.get(`/queue/${number}/quote`)).text
    expect(next).toMatch(/name="taxRate"[^>]*value="6.25"/)
    expect(next).toMatch(/name="taxReason"[^>]*value="in between two towns"/)
  })

  it('makes nothing anew when it is sent twice, and is the homeowner’s to read without its reason', async () => {
    await chargeTax(app, { second })
    const { id, number } = await sendThreeYards(app)
    const form = { ...(await hiddenFields(owner, number)), ...plain, ...own, secondRate: '2' }
    const answers = [await postQuote(owner, number, form), await postQuote(owner, number, form)]
    expect(answers.map(({ status }) => status)).toEqual([303, 303])
    expect((await findNewestQuote(app.db, id))!.revision).toBe(1)
    const other = await postQuote(owner, number, { ...form, secondRate: '3' })
    expect(other.status).toBe(409)
    const read = await bookingWords(app, owner, number)
    expect(read).toContain('Sales tax, 6.25%$18.75')
    expect(read).toContain('City tax, 2%$6.00')
    expect(read).not.toContain('in between two towns')
  })

  it.each([
    [{ taxRate: '6.25' }, 'Say why this job has a different rate.'],
    [{ taxRate: 'high', taxReason: 'x' }, 'Give a rate in percent, such as 8.25'],
    [{ taxRate: '101', taxReason: 'x' }, 'Give a rate in percent, such as 8.25'],
    [{ secondRate: '-1', taxReason: 'x' }, 'Give a rate in percent, such as 8.25'],
  ])('is refused beside its field, %j', async (typed, said) => {
    await chargeTax(app, { second })
    const { id, number } = await sendThreeYards(app)
    const answer = await confirmQuote(owner, number, { ...plain, ...typed })
    expect(answer.status).toBe(422)
    expect(answer.text).toContain(said)
    for (const [name, value] of Object.entries(typed))
      expect(answer.text).toMatch(new RegExp(`name="${name}"[^>]*value="${value}"`))
    expect(await findNewestQuote(app.db, id)).toBeUndefined()
  })
})

describe('a certificate for new work', () => {
  it('is asked for where the rules need one; without it tax is charged', async () => {
    await chargeTax(app)
    const { id, number } = await sendThreeYards(app)
    expect((await owner.get(`/queue/${number}/quote`)).text).not.toContain('name="certificate"')
    await chargeTax(app, needsCertificate)
    expect((await owner.get(`/queue/${number}/quote`)).text).toContain('name="certificate"')
    const asked = await confirmQuote(owner, number, { ...plain, do: 'again', work: 'new' })
    expect(words(asked.text)).toContain('There’s no certificate for the new work yet')
    await confirmQuote(owner, number, { ...plain, work: 'new' })
    expect(await linesOf(app, id)).toEqual(['finish 300.00', 'tax 24.75', '324.75'])
    await confirmQuote(owner, number, { ...plain, work: 'new', certificate: 'ST-124' })
    expect(await linesOf(app, id)).toEqual(['finish 300.00', '300.00'])
    expect((await findNewestQuote(app.db, id))!.terms).toMatchObject({ work: 'new', certificate: 'ST-124' })
    expect(await bookingWords(app, owner, number)).toContain(
      'Taxed as new work, with your certificate: ST-124.',
    )
  })

  it('leaves beds that were told to be new at new work until the contractor says otherwise', async () => {
    await chargeTax(app, needsCertificate)
    const beds = told({ ...bedTold({ sizes: { length: '27 ft', width: '12 ft' } }), work: 'new' })
    const { number } = await sendRequest(app, { told: beds })
    const page = await owner.get(`/queue/${number}/quote`)
    expect(page.text).toMatch(/name="work"[^>]*value="new"[^>]*checked/)
  })
})

it('the labor of an extra is a line of its own, named for whoever reads it, and may be changed', async () => {
  await chargeTax(app, { taxed: { upkeep: taxedOnly('finish'), new: taxedOnly() } })
  await changeRates(app, body => ({
    ...body,
    extras: body.extras.map(one =>
      one.slug === 'edging' ? { ...one, lower: '0.50', upper: '0.50', materialShare: '0.2' } : one,
    ),
  }))
  const bed = bedTold({ sizes: { length: '27 ft', width: '12 ft' } })
  const { id, number } = await sendRequest(app, { told: { ...told(bed), extras: ['edging'] } })
  const form = { 'lines.2.amount': '100', 'lines.2.reason': 'half of them are gone' }
  expect((await confirmQuote(owner, number, { ...plain, ...form })).status).toBe(303)
  // 78 ft of edge at .50 are 39; a fifth is 7.80. 8.25 % of 307.80 is 25.3935.
  const lines = ['finish 300.00', 'extra 7.80', 'extra-labor 100.00', 'tax 25.39', '433.19']
  expect(await linesOf(app, id)).toEqual(lines)
  const read = await bookingWords(app, owner, number)
  expect(read).toMatch(/: material[^$]*\$7\.80/)
  expect(read).toContain(': labor$100.00')
})
