import { afterAll, beforeAll, expect, it } from 'vitest'
import { json } from '../../src/db/json.ts'
import type { Tax } from '../../src/estimate/table/tax.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { taxedOnly, taxOf } from '../estimate/taxes.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { bedTold } from '../helpers/requests.ts'

let app: TestApp

beforeAll(async () => {
  app = await testApp()
  // Shredded wood at 80 to 120, so 300 for 3 yd³, in the middle.
  await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })
})
afterAll(() => app.close())

// 324 ft² at 3 in are 81 ft³, 3 yd³; in a told volume neither travel nor a ZIP has a part.
const beds = [bedTold({ shape: 'volume', sizes: { volume: '3 yd' } })]

async function charge(tax: Tax | null): Promise<void> {
  const { version, body } = (await findRateTable(app.db, app.deps.now()))!
  const made = { made_at: app.deps.now().toString(), made_by: 1 }
  await app.db
    .insertInto('rate_table')
    .values({ version: version + 1, body: json({ ...body, tax }), ...made })
    .execute()
}

async function answered(tax: Tax | null) {
  await charge(tax)
  const { body } = await app.browser().post('/ballpark').send({ beds, extras: [], postcode: '' })
  const fields = { 'beds.0.shape': 'volume', 'beds.0.sizes.volume': '3 yd', 'beds.0.count': '1' }
  const rest = { 'beds.0.planted': 'open', 'beds.0.lying': 'bare', 'beds.0.finish': 'shredded-wood' }
  const query = new URLSearchParams({ ...fields, ...rest, measuredBy: 'tape' })
  const posted = await app.browser().post('/ballpark').type('form').send(query.toString())
  const page = posted.status === 303 ? await app.browser().get(posted.headers.location!) : posted
  const words = (after: string, end: string) =>
    (page.text.split(after)[1] ?? '').split(end, 1)[0]!.replace(/<[^>]*>/g, ' ')
  const holds = words('<summary>Included</summary>', '</ul>')
  return { range: body.range, tax: body.tax, holds, leaves: words('Not included:', '</p>') }
}

it('says that tax is left out where none is set', async () => {
  const { tax, leaves } = await answered(null)
  expect(tax).toBeUndefined()
  expect(leaves).toContain('Sales tax, where it applies')
})

it('names the rate of a tax that is left out', async () => {
  const { range, tax, holds, leaves } = await answered(taxOf({ rate: '0.0825' }))
  expect(range.likely).toBe('300.00')
  expect(tax).toEqual({ rate: '0.0825', inRange: false })
  expect(leaves).toContain('Sales tax, 8.25%')
  expect(holds).not.toContain('Sales tax')
})

it('has the tax in it where the owner says so', async () => {
  const { range, tax, holds, leaves } = await answered(taxOf({ rate: '0.0825', inRanges: true }))
  // 8.25% of 300 are 24.75.
  expect(range.likely).toBe('324.75')
  expect(tax).toEqual({ rate: '0.0825', inRange: true })
  expect(holds).toContain('Sales tax, 8.25%')
  expect(leaves).not.toContain('Sales tax')
})

it('says nothing of a tax that nothing is charged of', async () => {
  const nothing = taxedOnly()
  const { range, holds, leaves } = await answered(taxOf({ taxed: { upkeep: nothing, new: nothing } }))
  expect(range.likely).toBe('300.00')
  expect(holds + leaves).not.toContain('Sales tax')
})
