import { afterAll, beforeAll, expect, it } from 'vitest'
import { type TestApp, testApp } from '../../helpers/app.ts'
import { type Browser, openBusiness } from '../../helpers/people.ts'
import { drafting } from './drafting.ts'

let app: TestApp
let owner: Browser
let draft: ReturnType<typeof drafting>
beforeAll(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  draft = drafting(app, owner)
})
afterAll(() => app.close())

const page = async (path: string) => (await owner.get(path)).text
/** The summaries of what is folded away, and of what is open. */
const folds = (html: string) =>
  [...html.matchAll(/<details( open)?>\s*<summary>([^<]*) <span class="adds">/g)].map(
    ([, open, words]) => `${open ? 'open' : 'folded'} ${words}`,
  )

const RATE = { charged: 'yes', 'tax.name.en': 'Sales tax', 'tax.name.es': 'Impuesto', 'tax.rate': '5' }

it('a tax takes a name and a rate; the rest is folded away under what it would add', async () => {
  const before = await page('/rates/draft/tax')
  expect(folds(before)).toEqual([
    'folded How it’s shown',
    'folded Taxed when you refresh beds',
    'folded Taxed in new work',
    'folded In new work',
    'folded A second tax',
    'folded On what you buy',
    'folded Areas with a different rate',
  ])
  expect(before).toContain('Show a city or county tax on a line of its own.')
  expect(before).toContain('Your tax office')
  expect((await draft.saveSection('tax', RATE)).status).toBe(303)
  expect((await draft.stored()).body.tax).toMatchObject({ rate: '0.05', second: { rate: null } })

  // What was filled in stays open, and so does what is wrong.
  const city = { 'tax.second.rate': '1.5', 'tax.second.name.en': 'City tax' }
  const refused = await draft.saveSection('tax', { ...RATE, ...city })
  expect(refused.status).toBe(422)
  expect(refused.text).toContain('A second tax needs its name.')
  expect(folds(refused.text)).toContain('open A second tax')
  await draft.saveSection('tax', { ...RATE, ...city, 'tax.second.name.es': 'Impuesto municipal' })
  const after = folds(await page('/rates/draft/tax'))
  expect(after.filter(one => one.startsWith('open'))).toEqual(['open A second tax'])
})

it('an extra’s tax is folded away until it is another', async () => {
  expect(folds(await page('/rates/draft/extra.edging'))).toContain('folded Sales tax')
  await draft.saveSection('extra.edging', { taxed: 'no' })
  expect(folds(await page('/rates/draft/extra.edging'))).toContain('open Sales tax')
})
