import { afterEach, beforeEach, expect, it } from 'vitest'
import type { RateTable } from '../../../src/estimate/table/rate-table.ts'
import { findRateTable } from '../../../src/rates/queries.ts'
import { bag } from '../../estimate/packs/made.ts'
import { type TestApp, testApp } from '../../helpers/app.ts'
import { type Browser, openBusiness } from '../../helpers/people.ts'
import { changeRates, sendThreeYards } from '../../quotes/quoting.ts'
import { drafting } from './drafting.ts'

let app: TestApp
let owner: Browser
let draft: ReturnType<typeof drafting>
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
  draft = drafting(app, owner)
})
afterEach(() => app.close())

const words = (html: string) => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
const inForce = async () => (await findRateTable(app.db, app.deps.now()))!.body
const codesOf = ({ cautions }: RateTable) => cautions.map(({ code }) => code)

it('warnings that the table lacks stand in the form switched off; saving it as it is changes nothing', async () => {
  await changeRates(app, body => ({
    ...body,
    cautions: body.cautions.filter(({ code }) => code !== 'lifting'),
  }))
  const form = await draft.formOf('/rates/draft/cautions')
  const at = Object.keys(form)
    .find(name => form[name] === 'lifting')!
    .replace(/was$/, '')
  expect(form[`${at}figure`]).toBe('51 lb')
  expect(form[`${at}shown`]).toBeUndefined()
  await draft.saveSection('cautions', {})
  expect(await app.db.selectFrom('rate_draft').selectAll().execute()).toEqual([])
  const refused = await draft.saveSection('cautions', { [`${at}shown`]: 'yes', [`${at}figure`]: 'heavy' })
  expect(refused.status).toBe(422)
  expect(refused.text).toContain('Needs a weight we can read, like 51 lb.')
  await draft.saveSection('cautions', { [`${at}shown`]: 'yes', [`${at}figure`]: '60 lb' })
  const { body } = await draft.stored()
  expect(body.cautions.find(({ code }) => code === 'lifting')).toMatchObject({ shown: true, figure: '60 lb' })
  expect(codesOf(body)).toHaveLength(codesOf(await inForce()).length + 1)
})

it('the owner adds a warning with words in both languages, and ticks it at a material', async () => {
  const form = await draft.formOf('/rates/draft/cautions')
  const last = Math.max(...Object.keys(form).map(name => Number(/^cautions\.(\d+)\./.exec(name)?.[1] ?? 0)))
  const own = {
    [`cautions.${last}.words.en`]: 'Bees live by the gate. Keep {figure} away.',
    [`cautions.${last}.figure`]: '10 ft',
    [`cautions.${last}.source`]: 'The beekeeper',
    [`cautions.${last}.shown`]: 'yes',
  }
  const refused = await draft.saveSection('cautions', own)
  expect(refused.status).toBe(422)
  expect(refused.text).toContain('Needs its words in both languages.')
  const spanish = { [`cautions.${last}.words.es`]: 'Hay abejas. Guarde {figure} de distancia.' }
  expect((await draft.saveSection('cautions', { ...own, ...spanish })).status).toBe(303)
  const code = codesOf((await draft.stored()).body).at(-1)!
  expect(code).toBe('bees-live-by-the-gate-keep-figure-away')
  await draft.saveSection('finish.shredded-wood', { [`cautions.${code}`]: 'yes' })
  expect((await draft.stored()).body.finishes[0]!.cautions).toContain(code)
  const page = words((await owner.get('/rates/draft/cautions')).text)
  expect(page).toContain('bees live by the gate')
  expect(page).toContain('“This material can burn. Some fire codes require {figure} or more')
})

it('homeowners read what is for everyone; staff read the rest on sheet, quote and worksheet', async () => {
  const bees = {
    code: 'bees',
    shown: true,
    readBy: 'everyone' as const,
    figure: '10 ft',
    source: 'The beekeeper',
    words: {
      en: 'Bees live by the gate. Keep {figure} away.',
      es: 'Hay abejas. Guarde {figure} de distancia.',
    },
  }
  await changeRates(app, body => ({
    ...body,
    cautions: [...body.cautions, bees],
    finishes: body.finishes.map(one => ({ ...one, packs: [bag()], cautions: ['bees', ...one.cautions] })),
  }))
  const query = new URLSearchParams({
    'beds.0.shape': 'rectangle',
    'beds.0.sizes.length': '27',
    'beds.0.sizes.width': '12',
    'beds.0.finish': 'shredded-wood',
  })
  const [en, es] = await Promise.all(
    ['en', 'es'].map(async language =>
      words((await app.browser().get(`/?${query}&language=${language}`)).text),
    ),
  )
  expect(en).toContain('Bees live by the gate. Keep 10 ft away. Source: The beekeeper')
  expect(es).toContain('Hay abejas. Guarde 10 pies de distancia.')
  expect(en).not.toContain('is the most for one person')
  const { number } = await sendThreeYards(app)
  // 2 ft³ of what weighs 1,000 lb a yd³ wet.
  const lifting = 'One weighs about 74 lb when wet. 51 lb is the most for one person'
  for (const page of ['quote', 'worksheet']) {
    const read = words((await owner.get(`/queue/${number}/${page}`)).text)
    expect(read).toContain(lifting)
    expect(read).toContain('Bees live by the gate')
    expect(read).toMatch(/It weighs about [\d,]+ lb when wet/)
  }
})

it('one that is switched off is shown nowhere', async () => {
  await changeRates(app, body => ({
    ...body,
    cautions: body.cautions.map(one => ({ ...one, shown: false })),
  }))
  const { number } = await sendThreeYards(app)
  expect((await owner.get(`/queue/${number}/quote`)).text).not.toContain('Watch out for')
})
