import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

/** What a browser without scripts posts for these beds, and the button that was pressed. */
function press(button: string, fields: Record<string, string | string[]>) {
  return app
    .browser()
    .post('/ballpark')
    .type('form')
    .send({ ...fields, do: button })
}

const rectangle = {
  'beds.0.shape': 'rectangle',
  'beds.0.sizes.length': '20 ft',
  'beds.0.sizes.width': '5 ft',
  'beds.0.count': '1',
  'beds.0.finish': 'stone',
  'beds.0.planted': 'full',
  'beds.0.lying': 'thin',
  'beds.0.depth': '',
  measuredBy: 'tape',
  postcode: '',
}

/** The page that a redirect leads to. */
async function follow(answer: { status: number; headers: Record<string, string> }) {
  expect(answer.status).toBe(303)
  const page = await app.browser().get(answer.headers.location!.split('#')[0]!)
  expect(page.status).toBe(200)
  return page.text
}

/** The tag of the field with this id, with all its attributes. */
function tagOf(page: string, id: string): string {
  const tag = new RegExp(`<[a-z]+[^>]* id="${id}"[^>]*>`).exec(page)?.[0]
  if (!tag) throw new Error(`There is no #${id} on the page.`)
  return tag
}

const typedIn = (page: string, id: string) => /value="([^"]*)"/.exec(tagOf(page, id))?.[1]
const isHidden = (page: string, id: string) => / hidden/.test(tagOf(page, id))
const checkedIn = (page: string, name: string) =>
  new RegExp(`name="${name.replaceAll('.', '\\.')}" value="([^"]*)"[^>]* checked`).exec(page)?.[1]

test('a shape that is no longer offered is asked for again', async () => {
  const answer = await app.browser().get('/?beds.0.shape=ring&beds.0.sizes.outer=10&beds.0.sizes.inner=3')
  expect(answer.status).toBe(200)
  expect(answer.text).toContain('href="#beds-0-shape"')
})

test('the form opens with one bed, asks for no contact details and shows no range yet', async () => {
  const page = (await app.browser().get('/')).text
  expect(page.match(/<legend>Bed \d+<\/legend>/g)).toEqual(['<legend>Bed 1</legend>'])
  expect(isHidden(page, 'range')).toBe(true)
  expect(isHidden(page, 'go-on')).toBe(true)
  expect(page).not.toMatch(/name="(name|phone|email|street)"/)
})

test('a button shows the range, on a page that may be loaded again', async () => {
  const answer = await press('range', rectangle)
  expect(answer.headers.location).toMatch(/^\/\?.*#range$/)
  const page = await follow(answer)
  expect(isHidden(page, 'range')).toBe(false)
  expect(isHidden(page, 'go-on')).toBe(false)
  expect(page).toMatch(/<p class="range-figure"[^>]*>\$[\d,]+/)
  expect(page).toContain('Sales tax, where it applies')
  expect(checkedIn(page, 'beds.0.finish')).toBe('stone')
  expect(checkedIn(page, 'beds.0.planted')).toBe('full')
  expect(checkedIn(page, 'beds.0.lying')).toBe('thin')
  expect(checkedIn(page, 'measuredBy')).toBe('tape')
})

test('what was understood stands under each field, and the bed is drawn', async () => {
  const page = await follow(await press('range', { ...rectangle, 'beds.0.sizes.length': `12' 6"` }))
  expect(page).toMatch(/id="beds-0-sizes-length-echo"[^>]*>= 12 ft 6 in</)
  expect(page).toMatch(/<svg[^>]*>.*Rectangle, 12 ft 6 in × 5 ft/s)
})

test('20x5 in one box does for both', async () => {
  const typed = { ...rectangle, 'beds.0.sizes.length': '20x5', 'beds.0.sizes.width': '' }
  expect(await follow(await press('range', typed))).toContain('Rectangle, 20 ft × 5 ft')
})

test('a new bed begins with the finish, the plants and the layer of the one before, which folds to a line', async () => {
  const answer = await press('add', rectangle)
  expect(answer.headers.location).toMatch(/#bed-2$/)
  const page = await follow(answer)
  expect(page).toMatch(/<summary>.*Rectangle, 20 ft × 5 ft, Decorative stone/)
  expect(checkedIn(page, 'beds.1.finish')).toBe('stone')
  expect(checkedIn(page, 'beds.1.planted')).toBe('full')
  expect(checkedIn(page, 'beds.1.lying')).toBe('thin')
  expect(typedIn(page, 'beds-1-sizes-length')).toBe('')
  expect(page).toContain('This is for 1 of your 2 beds.')
})

test('adding a bed loses nothing of what can’t be read yet, and says so without a fuss', async () => {
  const page = await follow(await press('add', { ...rectangle, 'beds.0.sizes.width': 'wide' }))
  expect(typedIn(page, 'beds-0-sizes-length')).toBe('20 ft')
  expect(typedIn(page, 'beds-0-sizes-width')).toBe('wide')
  expect(page).toMatch(/id="beds-0-sizes-width-echo"[^>]*>can’t read this yet</)
  expect(page).not.toContain('class="errors"')
  expect(page).not.toMatch(/<details class="bed-fold">/)
})

test('the sizes of a shape that was tried before are kept', async () => {
  const page = await follow(
    await press('range', { ...rectangle, 'beds.0.shape': 'circle', 'beds.0.sizes.diameter': '9' }),
  )
  expect(checkedIn(page, 'beds.0.shape')).toBe('circle')
  expect(typedIn(page, 'beds-0-sizes-length')).toBe('20 ft')
  expect(page).toContain('Circle, 9 ft across')
})

test('taking a bed out leaves the others as they were', async () => {
  const second = { 'beds.1.shape': 'circle', 'beds.1.sizes.diameter': 'about 9', 'beds.1.count': '4' }
  const third = { 'beds.2.shape': 'volume', 'beds.2.sizes.volume': 'heaps' }
  const page = await follow(await press('remove.0', { ...rectangle, ...second, ...third }))
  expect(page.match(/<legend>Bed \d+<\/legend>/g)).toHaveLength(2)
  expect(checkedIn(page, 'beds.0.shape')).toBe('circle')
  expect(typedIn(page, 'beds-0-sizes-diameter')).toBe('about 9')
  expect(typedIn(page, 'beds-0-count')).toBe('4')
  expect(typedIn(page, 'beds-1-sizes-volume')).toBe('heaps')
})

test('the last bed taken out leaves a fresh one', async () => {
  const page = await follow(await press('remove.0', rectangle))
  expect(page.match(/<legend>Bed \d+<\/legend>/g)).toHaveLength(1)
  expect(typedIn(page, 'beds-0-sizes-length')).toBe('')
})

test.each([
  ['beds.0.sizes.width', 'wide', 'beds-0-sizes-width'],
  ['beds.0.count', '0', 'beds-0-count'],
  ['beds.0.depth', 'deep', 'beds-0-depth'],
  ['beds.0.finish', 'gold', 'beds-0-finish'],
  ['measuredBy', 'drone', 'measuredBy'],
])('a fault of %s is told beside it, and all that was typed stays', async (field, typed, id) => {
  const answer = await press('range', { ...rectangle, [field]: typed })
  expect(answer.status).toBe(422)
  expect(answer.text).toContain('<title>Error: ')
  expect(answer.text).toContain(`href="#${id}"`)
  expect(answer.text).toContain(`id="${id}-error"`)
  expect(typedIn(answer.text, 'beds-0-sizes-length')).toBe('20 ft')
  if (/sizes|count|depth/.test(field)) expect(typedIn(answer.text, id)).toBe(typed)
})

test('going on with a fault is refused; without one it leads to the contact page, beds and ZIP carried over', async () => {
  expect((await press('go-on', { ...rectangle, 'beds.0.sizes.length': '' })).status).toBe(422)
  const answer = await press('go-on', { ...rectangle, postcode: '78701', 'extras[]': ['edging'] })
  expect(answer.headers.location).toMatch(/^\/request\?/)
  const page = await follow(answer)
  expect(typedIn(page, 'postcode')).toBe('78701')
  expect(page).toContain('<input type="hidden" name="beds.0.sizes.length" value="20 ft">')
  expect(page).toContain('<input type="hidden" name="extras[]" value="edging">')
  expect(page).toMatch(/name="submissionKey" value="[0-9a-f-]{36}"/)
})

test('the contact page is not shown for beds that can’t be read', async () => {
  const answer = await app.browser().get('/request?beds.0.shape=circle&beds.0.sizes.diameter=round')
  expect(answer.status).toBe(303)
  expect(answer.headers.location).toMatch(/^\/\?beds\.0\.shape=circle/)
})

test('so many beds that no address could hold them are answered at once', async () => {
  const many: Record<string, string> = { measuredBy: 'tape' }
  for (let n = 0; n < 40; n++) {
    many[`beds.${n}.shape`] = 'rectangle'
    many[`beds.${n}.finish`] = 'pine-straw'
    many[`beds.${n}.sizes.length`] = 'about twenty-five or 25 ft 6 in'.slice(-11)
    many[`beds.${n}.sizes.width`] = '5 1/2 ft'
    many[`beds.${n}.planted`] = 'full'
    many[`beds.${n}.lying`] = 'thick'
  }
  const answer = await press('range', many)
  expect(answer.status).toBe(200)
  expect(isHidden(answer.text, 'range')).toBe(false)
  expect((await press('go-on', many)).text).toContain('name="submissionKey"')
  const full = await press('add', many)
  expect(full.text).toContain('the most beds we can take at once')
})

test.each([
  '',
  'beds=1',
  'beds.0=1',
  'beds.0.sizes=3',
  'beds.0.shape=circle&beds.0.shape=ring',
  '__proto__.x=1&beds.0.__proto__=3',
  'beds.0.shape=toString&beds.0.finish=__proto__',
  'extras=1&extras%5B%5D=2&measuredBy=constructor',
])('an address or a post such as %j is answered, never with 500', async fields => {
  expect((await app.browser().get(`/?${fields}`)).status).toBe(200)
  expect((await app.browser().post('/ballpark').type('form').send(fields)).status).toBe(422)
})

test('for the live range the page comes with 200 and no refusals, whatever is typed so far', async () => {
  const answer = await app
    .browser()
    .post('/ballpark')
    .type('form')
    .set({ accept: 'text/html', 'x-part': 'live' })
    .send({ ...rectangle, 'beds.0.sizes.width': 'wid', 'beds.0.count': '' })
  expect(answer.status).toBe(200)
  expect(answer.text).not.toContain('class="error"')
  expect(answer.text).toMatch(/id="beds-0-sizes-width-echo"[^>]*>can’t read this yet</)
  expect(isHidden(answer.text, 'range')).toBe(true)
})

test('the form speaks Spanish, and keeps the beds when the language is changed', async () => {
  const answer = await press('range', { ...rectangle, 'beds.0.sizes.width': 'wide' })
  const other = /class="language" href="([^"]*)"/.exec(answer.text)![1]!.replaceAll('&amp;', '&')
  const page = await app.browser().get(other)
  expect(page.text).toContain('<html lang="es">')
  expect(page.text).toContain('Jardinera 1')
  expect(typedIn(page.text, 'beds-0-sizes-length')).toBe('20 ft')
})

test('looking at all this has put nothing into the store', async () => {
  for (const table of ['quote_request', 'customer', 'place', 'outbox'] as const) {
    expect(await app.db.selectFrom(table).selectAll().execute()).toEqual([])
  }
})
