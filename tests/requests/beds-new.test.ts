import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Tax } from '../../src/estimate/table/tax.ts'
import { taxedOnly } from '../estimate/taxes.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { changeRates, chargeTax } from '../quotes/quoting.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app, { 'rates.shredded-wood.0.upper': '120' })
})
afterAll(() => app.close())

const names = { en: null, es: null }
const asked: Partial<Tax> = {
  taxed: { upkeep: taxedOnly('all'), new: taxedOnly('finish') },
  inRanges: true,
  second: { rate: '0.02', newRate: '0', name: { en: 'City tax', es: 'Impuesto municipal' } },
  newWork: {
    rate: '0.02',
    name: { en: 'Contractor’s tax', es: 'Impuesto del contratista' },
    certificate: false,
    asked: true,
  },
}
const get = async (path: string) =>
  (await app.browser().get(path)).text.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
const beds = new URLSearchParams({
  'beds.0.shape': 'volume',
  'beds.0.sizes.volume': '3 cubic yards',
  'beds.0.lying': 'bare',
  'beds.0.finish': 'shredded-wood',
})

it('homeowners are asked whether their beds are new only where tax is another then', async () => {
  const QUESTION = 'Are the beds new?'
  await changeRates(app, body => ({ ...body, tax: null }))
  expect(await get('/')).not.toContain(QUESTION)
  await chargeTax(app, { newWork: asked.newWork! })
  expect(await get('/')).toContain(QUESTION)
  await chargeTax(app, { newWork: { ...asked.newWork!, asked: false } })
  expect(await get('/')).not.toContain(QUESTION)
  await chargeTax(app, { newWork: { rate: null, name: names, certificate: false, asked: true } })
  expect(await get('/')).not.toContain(QUESTION)
})

it('a range goes by the answer, and names the taxes that are in it', async () => {
  await chargeTax(app, asked)
  const [old, fresh] = [await get(`/?${beds}`), await get(`/?${beds}&work=new`)]
  expect(old).toContain('Sales tax, 8.25%')
  expect(old).toContain('City tax, 2%')
  expect(fresh).toContain('Contractor’s tax, 2%')
  expect(fresh).not.toContain('City tax')
  // 300 with 10.25 % or 2 % on it, to the whole dollar.
  expect(old).toContain('Most likely about $331.')
  expect(fresh).toContain('Most likely about $306.')
  expect(await get(`/?${beds}&work=new&language=es`)).toContain('Impuesto del contratista, 2%')
})

it('the answer goes along to whoever and wherever, and is stored with the beds', async () => {
  await chargeTax(app, asked)
  const fields = { ...Object.fromEntries(beds), work: 'new', do: 'go-on' }
  const answer = await app.browser().post('/ballpark').type('form').send(fields)
  expect(answer.status).toBe(303)
  const page = await app.browser().get(answer.headers.location!)
  expect(page.text).toContain('name="work" value="new"')
  expect(page.text).toContain('$306')
})

it('where new work needs a certificate the range has the tax in it, and says that one may change it', async () => {
  await chargeTax(app, { ...asked, newWork: { ...asked.newWork!, certificate: true } })
  const fresh = await get(`/?${beds}&work=new`)
  expect(fresh).toContain('Most likely about $331.')
  expect(fresh).toContain('Tax may be different for new beds, once you give us a certificate.')
  expect(await get(`/?${beds}`)).not.toContain('certificate')
})
