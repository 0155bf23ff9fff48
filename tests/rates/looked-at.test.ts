import { afterEach, beforeEach, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { expectOwnerOnly } from '../helpers/owner-only.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { putInForce } from '../helpers/rate-tables.ts'
import { bedTold, sendRequest, told } from '../helpers/requests.ts'

let app: TestApp
let owner: Browser
beforeEach(async () => {
  app = await testApp()
  owner = (await openBusiness(app)).owner
})
afterEach(() => app.close())

const say = (fields: Record<string, string | string[]>) =>
  owner
    .post('/rates/looked-at')
    .type('form')
    .send({ do: 'ticked', ...fields })

/** The ticks of the page of the rates, by their key. */
async function ticks(): Promise<Record<string, string>> {
  const { text } = await owner.get('/rates')
  const values = [...text.matchAll(/name="right\[\]" value="([^"]*)"/g)].map(([, value]) => value!)
  return Object.fromEntries(values.map(value => [value.split('=')[0]!, value]))
}

const stored = () =>
  app.db.selectFrom('figure_looked_at').select(['key', 'figure', 'by']).orderBy('key').execute()
const versions = async () => (await app.db.selectFrom('rate_table').select('version').execute()).length
const flash = async () => /class="flash" role="status">([^<]*)/.exec((await owner.get('/rates')).text)?.[1]

test('lists what nobody has looked at with its value, its source and where it is changed, folded, and counts it', async () => {
  const { text } = await owner.get('/rates')
  const all = await ticks()
  expect(text).toContain(`<h2 id="not-looked-at" tabindex="-1">${Object.keys(all).length} figures to check`)
  expect(text).toMatch(/<details>\s*<summary>Look at them/)
  expect(all['measuring.eye']).toBe('measuring.eye=0.14 0.5')
  expect(text).toMatch(
    /How far off a length is, measured by eye: <span class="figure">14%, with 50% of that the same for every length<\/span>/,
  )
  expect(text).toMatch(
    /id="right-measuring-eye-source">Invented, to start with<.*href="\/rates\/draft\/ranges"/,
  )
  expect(text).toMatch(
    /id="right-finish-stone-depth-source">Common practice, no source<.*href="\/rates\/draft\/finish\.stone"/,
  )
  // Their own prices, a minimum of 150 and 1 labor hour are the owner's; the pace and the organic depths have sources.
  for (const key of ['finish.stone.rates', 'extra.edging.price', 'minimumCharge', 'labour.spread', 'pace'])
    expect(all).not.toHaveProperty([key])
  expect(all).not.toHaveProperty(['finish.pine-straw.depth'])
})

test('those ticked are kept with the value that was seen, and the others stay; no version is made', async () => {
  const before = await ticks()
  const answer = await say({ 'right[]': [before.promise!, before['measuring.tape']!] })
  expect([answer.status, answer.headers.location]).toEqual([303, '/rates'])
  expect(await flash()).toBe('2 figures are marked as right.')
  expect(await stored()).toEqual([
    { key: 'measuring.tape', figure: '0.02 0', by: 1 },
    { key: 'promise', figure: '0.8', by: 1 },
  ])
  const { promise: _, 'measuring.tape': __, ...left } = before
  expect(await ticks()).toEqual(left)
  expect(await versions()).toBe(1)
})

test('all that were shown can be said to be right at once, and then nothing is listed or told', async () => {
  const before = Object.values(await ticks())
  await say({ do: 'all', 'shown[]': before })
  expect(await stored()).toHaveLength(before.length)
  const { text } = await owner.get('/rates')
  expect(text).not.toContain('not-looked-at')
  expect((await owner.get('/queue')).text).not.toContain('nobody has looked at')
})

test('saying it again does nothing, and keeps the moment of the first time', async () => {
  const { promise } = await ticks()
  await say({ 'right[]': promise! })
  const at = () => app.db.selectFrom('figure_looked_at').select('at').execute()
  const first = await at()
  app.setClock('2026-03-02T16:00:00Z')
  const again = await say({ 'right[]': [promise!, promise!] })
  expect(again.status).toBe(303)
  expect(await flash()).toBe('Those were already marked as right.')
  expect(await at()).toEqual(first)
})

test('two at the same moment keep it once', async () => {
  const { promise } = await ticks()
  const answers = await Promise.all([1, 2, 3].map(() => say({ 'right[]': promise! })))
  expect(answers.map(({ status }) => status)).toEqual([303, 303, 303])
  expect(await stored()).toHaveLength(1)
})

test('a figure that was changed meanwhile is not taken, and one’s own is no longer listed', async () => {
  const { promise, step } = await ticks()
  await putInForce(app, table => ({ ...table, promise: '0.85' }))
  await say({ 'right[]': [promise!, step!] })
  expect(await flash()).toBe(
    'One figure is marked as right. One changed after you opened this page, so it isn’t marked.',
  )
  expect(await stored()).toEqual([{ key: 'step', figure: '10', by: 1 }])
  expect(await ticks()).not.toHaveProperty(['promise'])
  await putInForce(app, table => ({ ...table, promise: '0.80', step: '10.00' }))
  const back = await ticks()
  expect(back.promise).toBe(promise)
  expect(back).not.toHaveProperty(['step'])
})

test('a value that the figure doesn’t have is not taken: it stays on the list', async () => {
  await say({ 'right[]': 'promise=0.9' })
  expect(await flash()).toBe('One changed after you opened this page, so it isn’t marked.')
  expect(await stored()).toEqual([])
  expect(await ticks()).toHaveProperty(['promise'])
})

test('a figure with a source, or of the owner’s own, can’t be confirmed', async () => {
  await say({ 'right[]': ['pace=2.5', 'minimumCharge=150'] })
  expect(await stored()).toEqual([])
})

test.each([
  ['nothing', {}],
  ['what is no figure', { 'right[]': ['', '=', 'x', 'finish.gold.rates=1 2', '__proto__=1'] }],
  ['all, where none was shown', { do: 'all', 'right[]': 'promise=0.8' }],
])('%s is refused with a word beside the list, unfolded', async (_what, fields) => {
  const answer = await say(fields)
  expect(answer.status).toBe(422)
  expect(answer.text).toMatch(/<title>Error: Rates/)
  expect(answer.text).toContain('<a href="#not-looked-at">Check the figures that are right')
  expect(answer.text).toMatch(
    /<details open>\s*<summary>Look at them[\s\S]{0,120}class="error">Check the figures/,
  )
  expect(await stored()).toEqual([])
})

test('invented prices that were set up with are listed until they are changed', async () => {
  await putInForce(app, table => ({
    ...table,
    minimumCharge: '175',
    finishes: table.finishes.map(finish => ({ ...finish, rates: [{ lower: '85', upper: '105' }] })),
  }))
  const all = await ticks()
  expect(all).toMatchObject({
    minimumCharge: 'minimumCharge=175',
    'finish.shredded-wood.rates': 'finish.shredded-wood.rates=85 105',
  })
  // The others are invented at other prices.
  expect(all).not.toHaveProperty(['finish.stone.rates'])
})

test('staff are told on the queue, and on no page of a request; one is told as one', async () => {
  const { number } = await sendRequest(app, { told: told(bedTold()) })
  const count = Object.keys(await ticks()).length
  const line = (text: string) =>
    /<p class="soft small">Price ranges use <a href="\/rates#not-looked-at">([^<]*)<\/a>\.<\/p>/.exec(
      text,
    )?.[1]
  const toldAt = async (page: string) => line((await owner.get(page).expect(200)).text)
  await owner.post(`/queue/${number}/visit/leave-out`).type('form').send({})
  expect(await toldAt('/queue')).toBe(`${count} figures you haven’t checked yet`)
  for (const page of [`/queue/${number}`, `/queue/${number}/quote`])
    expect(await toldAt(page)).toBeUndefined()
  const { promise: left, ...others } = await ticks()
  await say({ 'right[]': Object.values(others) })
  expect(await toldAt('/queue')).toBe('one figure you haven’t checked yet')
  expect((await owner.get('/rates')).text).toMatch(/>One figure to check<[\s\S]*<details open>/)
  await say({ 'right[]': left! })
  expect(await toldAt('/queue')).toBeUndefined()
})

test('it is the owner’s alone: neither the helper nor a homeowner is told or may say so', async () => {
  const helper = await helperBrowser(app)
  const { ownPath } = await sendRequest(app)
  await expectOwnerOnly(app, helper, 'post', '/rates/looked-at')
  expect(await stored()).toEqual([])
  for (const page of [
    await helper.get('/days'),
    await app.browser().get(ownPath),
    await app.browser().get('/'),
  ])
    expect([page.status, page.text.includes('looked at')]).toEqual([200, false])
})
