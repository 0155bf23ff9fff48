import { afterAll, beforeAll, expect, test } from 'vitest'
import { bookDay } from '../../src/bookings/booking.ts'
import { moveWork } from '../../src/bookings/move.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { acceptedRequest } from '../helpers/bookings.ts'
import { bookedBed, lineForm, readyToLoad, tick } from '../helpers/loads.ts'
import { bags, move } from '../helpers/on-hand.ts'
import { type Browser, helperBrowser, openBusiness } from '../helpers/people.ts'
import { putInForce } from '../helpers/rate-tables.ts'
import { bedTold, told } from '../helpers/requests.ts'
import { phonePhoto } from '../photos/pictures.ts'

let app: TestApp
let owner: Browser
let helper: Browser

beforeAll(async () => {
  app = await testApp()
  ;({ owner } = await openBusiness(app))
  helper = await helperBrowser(app)
  await readyToLoad(app)
})
afterAll(() => app.close())

// Each test has days of its own. What is on hand is taken by the earliest, so only one test has some.
const page = async (browser: Browser, day: string) => (await browser.get(`/loads/${day}`)).text
const got = () => app.db.selectFrom('load_got').selectAll()

test('the list of a day is what its jobs take together, with prices for the owner and none for a helper', async () => {
  // UF/IFAS Gardening Solutions: 12 by 12 ft, 3 in deep, are 36 ft³. Two are 72 ft³: 2.5 yd³ at $32 and 3 bags of 2 ft³ at $4.
  const one = await bookedBed(app, '2026-03-10', '12', '12')
  const other = await bookedBed(app, '2026-03-10', '12', '12')
  const owners = await page(owner, '2026-03-10')
  for (const words of ['2.5 cubic yards', '$80.00', '3 × 2 ft³ bag', '$12.00', '$92.00'])
    expect(owners).toContain(words)
  // Job by job each is 1.3333 yd³, in steps of a half 1.5 yd³: 2 × $48.
  expect(owners).toContain('saves $4.00')
  // The 1,500 lb that the truck may carry are 1.5 yd³ of what is 1,000 lb wet.
  expect(owners).toContain('Trip 2')
  const helpers = await page(helper, '2026-03-10')
  for (const { number } of [one, other]) expect(helpers).toContain(number)
  expect(helpers).toContain('2.5 cubic yards')
  expect(helpers).not.toMatch(/\$\d|saves/)
  const spanish = (await helper.get('/loads/2026-03-10?language=es').redirects(1)).text
  expect(spanish).toContain('Lista de carga')
  expect(spanish).toContain('2.5 yardas cúbicas')
  await helper.get('/days?language=en').redirects(1)
})

test('what a helper got is ticked once, with what he paid and the ticket, which he and the owner see', async () => {
  const day = '2026-03-11'
  const job = await bookedBed(app, day, '12', '12')
  const form = await lineForm(helper, day)
  const send = () => {
    const post = helper.post(`/loads/${day}/got`)
    for (const [name, value] of Object.entries(form)) post.field(name, value)
    return post
  }
  const sent = async (paid: string) =>
    send()
      .field('line.0.paid', paid)
      .field('line.0.where', 'Smith’s yard')
      .attach('line.0.ticket', Buffer.from(await phonePhoto()), 'ticket.jpg')
  expect((await sent('lots')).status).toBe(422)
  expect((await sent('52.40')).status).toBe(303)
  expect((await sent('52.40')).status).toBe(303)
  const [row, ...more] = await got().where('day', '=', day).execute()
  expect(more).toEqual([])
  expect(row).toMatchObject({ units: '1.500', paid: '52.40', bought_at: 'Smith’s yard', pack: 'bulk' })
  const shown = await page(helper, day)
  expect(shown).toContain('paid $52.40')
  expect(shown).toContain('Everything is there.')
  expect(shown).toContain(job.number)
  expect((await helper.get(`/loads/${day}/got/${row!.id}/ticket`)).headers['content-type']).toBe('image/jpeg')
  expect(await page(owner, day)).toContain('paid $52.40')
})

test('what somebody else paid a helper doesn’t see, nor undo', async () => {
  const day = '2026-03-12'
  await bookedBed(app, day, '12', '12')
  expect((await tick(owner, day, { 'line.0.paid': '61.17' })).status).toBe(303)
  const [row] = await got().where('day', '=', day).execute()
  expect(await page(helper, day)).not.toContain('61.17')
  expect((await helper.post(`/loads/${day}/got/${row!.id}/undo`)).status).toBe(404)
  expect((await owner.post(`/loads/${day}/got/${row!.id}/undo`)).status).toBe(303)
  expect((await owner.post(`/loads/${day}/got/${row!.id}/undo`)).status).toBe(303)
  expect(await page(helper, day)).toContain('Pick up')
  await expect(
    app.db.updateTable('load_got').set({ paid: '1' }).where('id', '=', row!.id).execute(),
  ).rejects.toThrow()
})

test('two who tick the same at once: the second is shown what the first did', async () => {
  const day = '2026-03-13'
  await bookedBed(app, day, '12', '12')
  const [one, other] = [await lineForm(owner, day), await lineForm(helper, day)]
  const answers = await Promise.all([
    owner.post(`/loads/${day}/got`).type('form').send(one),
    helper.post(`/loads/${day}/got`).type('form').send(other),
  ])
  expect(answers.map(({ status }) => status).sort()).toEqual([303, 409])
  expect(await got().where('day', '=', day).execute()).toHaveLength(1)
})

test('bags on hand are taken first, and go back when that is undone', async () => {
  const day = '2026-03-04'
  await bookedBed(app, day, '12', '12')
  await move(app, bags('20', { spot: 'Garage' }))
  const shown = await page(helper, day)
  // 18 bags of 2 ft³ are enough: UF/IFAS Gardening Solutions.
  expect(shown).toContain('18 × 2 ft³ bag')
  expect(shown).toContain('At: Garage')
  expect(shown).not.toContain('Pick up')
  expect((await tick(helper, day)).status).toBe(303)
  const left = async () =>
    Number(
      (
        await app.db
          .selectFrom('on_hand')
          .select('units')
          .where('spot', '=', 'Garage')
          .executeTakeFirstOrThrow()
      ).units,
    )
  expect(await left()).toBe(2)
  const [row] = await got().where('day', '=', day).execute()
  expect((await helper.post(`/loads/${day}/got/${row!.id}/undo`)).status).toBe(303)
  expect(await left()).toBe(20)
  await move(app, bags('-20', { spot: 'Garage', kind: 'loaded', key: 'emptied' }))
})

test('when a job moves, what was got for it goes along, and the rest stays', async () => {
  const [from, to] = ['2026-03-17', '2026-03-18']
  const goes = await bookedBed(app, from, '12', '12')
  const stays = await bookedBed(app, from, '12', '12')
  for (const status of [303, 303]) expect((await tick(owner, from)).status).toBe(status)
  await moveWork(app.deps, goes.id, { from, to }, { kind: 'staff', accountId: 1 })
  const [there, here] = [await page(helper, to), await page(helper, from)]
  expect(there).toContain(goes.number)
  expect(there).toContain('Everything is there.')
  expect(there).toContain('got for Tue, Mar 17')
  expect(here).toContain('Everything is there.')
  expect(here).toContain(`/days`)
  expect(here).toContain(stays.number)
})

test('sold out: the office asks the customer, who has to say yes before anything else is loaded', async () => {
  const day = '2026-03-19'
  const { number } = await bookedBed(app, day, '12', '12')
  const sold = { of: 'finish', slug: 'shredded-wood' }
  expect((await helper.post(`/loads/${day}/sold-out`).type('form').send(sold)).status).toBe(303)
  expect((await helper.post(`/loads/${day}/sold-out`).type('form').send(sold)).status).toBe(303)
  expect(await page(helper, day)).toContain(`/days/jobs/${number}/change`)
  expect(await page(owner, day)).toContain(`/queue/${number}/quote`)
  const request = (await owner.get(`/queue/${number}`)).text
  expect(request.split('Sold out at the yard')).toHaveLength(2)
  const other = await owner
    .post(`/loads/${day}/got`)
    .type('form')
    .send({ ...(await lineForm(owner, day)), slug: 'compost' })
  expect(other.status).toBe(409)
  expect((await helper.post(`/loads/${day}/there`).type('form').send(sold)).status).toBe(303)
  expect(await page(helper, day)).not.toContain('Sold out. Load')
})

test('tools stand on the list of the days that need them, in the helper’s language, and are ticked', async () => {
  const day = '2026-03-20'
  await bookedBed(app, day, '12', '12')
  const lists = { 'things.always': 'Tarps / Lonas\nRakes', 'things.finish.stone': 'Steel rake' }
  expect((await owner.post('/loads/along').type('form').send(lists)).status).toBe(303)
  expect((await helper.get('/loads/along')).status).toBe(403)
  const thing = (thing: string, on: string) =>
    helper.post(`/loads/${day}/thing`).type('form').send({ thing, on })
  for (const status of [303, 303]) expect((await thing('Tarps / Lonas', 'yes')).status).toBe(status)
  expect((await thing('A crane', 'yes')).status).toBe(404)
  const spanish = (await helper.get(`/loads/${day}?language=es`).redirects(1)).text
  expect(spanish).toContain('✓ Lonas')
  expect(spanish).not.toContain('Steel rake')
  await helper.get('/days?language=en').redirects(1)
  expect((await thing('Tarps / Lonas', '')).status).toBe(303)
  expect(await page(helper, day)).not.toContain('✓ Tarps')
})

test('a day on which nothing begins has nothing to load, and nothing can be got for it', async () => {
  const day = '2026-03-24'
  expect(await page(helper, day)).toContain('No job begins on this day')
  expect((await helper.get('/loads/2026-02-30')).status).toBe(404)
  await bookedBed(app, '2026-03-25', '12', '12')
  const form = await lineForm(owner, '2026-03-25')
  expect((await owner.post(`/loads/${day}/got`).type('form').send(form)).status).toBe(409)
  expect((await app.browser().get(`/loads/${day}`)).status).toBe(303)
})

test('what only the cost of an extra is known of stands on the list too, in what it costs per', async () => {
  const day = '2026-03-26'
  const edging = (table: RateTable, materialCost: string | null) => ({
    ...table,
    extras: table.extras.map(extra =>
      extra.slug === 'edging' ? { ...extra, packs: [], materialCost, waste: '0.1' } : extra,
    ),
  })
  await putInForce(app, table => edging(table, '1.20'))
  const beds = told(bedTold({ sizes: { length: '12 ft', width: '12 ft' }, extras: ['edging'] }))
  const { id, number } = await acceptedRequest(app, '1', { told: beds })
  await bookDay(app.deps, id, day)
  // A square of 12 ft has 48 ft of edge; a tenth more is cut off: 52.8 ft at $1.20 are $63.36.
  const [owners, helpers] = [await page(owner, day), await page(helper, day)]
  for (const words of ['52.8 feet', '$63.36', `${number}: 52.8`]) expect(owners).toContain(words)
  expect(helpers).toContain('52.8 feet')
  expect(helpers).not.toContain('63.36')
  const nth = owners.split('<form class="loads-form"').findIndex(form => form.includes('value="edging"')) - 1
  const form = await lineForm(owner, day, nth)
  for (const _ of [1, 2])
    expect((await owner.post(`/loads/${day}/got`).type('form').send(form)).status).toBe(303)
  expect((await page(owner, day)).split('$63.36')).toHaveLength(1)
  const [row, ...more] = await got().where('day', '=', day).where('of', '=', 'extra').execute()
  expect([row, more]).toMatchObject([
    { slug: 'edging', pack: '', units: '52.800', contents: '1.00000000' },
    [],
  ])
  await putInForce(app, table => edging(table, null))
})
