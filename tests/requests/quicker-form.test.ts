import { afterAll, beforeAll, expect, test } from 'vitest'
import { type TestApp, testApp } from '../helpers/app.ts'
import { openBusiness } from '../helpers/people.ts'
import { CAROL, sendForm } from '../helpers/request-form.ts'

let app: TestApp
beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
})
afterAll(() => app.close())

const OVAL = {
  'beds.0.shape': 'oval',
  'beds.0.sizes.length': '12 ft',
  'beds.0.sizes.width': '8 ft',
  'beds.0.count': '2',
  'beds.0.finish': 'stone',
  'beds.0.planted': 'full',
  'beds.0.lying': 'thin',
  'beds.0.depth': '4',
}

const get = async (path: string) => (await app.browser().get(path)).text

/** Posts the form as a browser without scripts does, and gives where that leads. */
async function press(button: string, fields: Record<string, string> = {}) {
  const answer = await app
    .browser()
    .post('/ballpark')
    .type('form')
    .send({ ...OVAL, ...fields, do: button })
  expect(answer.status).toBe(303)
  return answer.headers.location!
}

const fieldsIn = (location: string) => Object.fromEntries(new URL(location, 'http://x').searchParams)

function ask(part: string, fields: Record<string, string>) {
  return app
    .browser()
    .post('/ballpark')
    .type('form')
    .set({ accept: 'text/html', 'x-part': part })
    .send(fields)
}

/** What a page says is missing, and where that leads. */
const missingOn = (page: string) =>
  /class="strip-missing"><a href="([^"]+)">([^<]+)</.exec(page)?.slice(1) ?? null

test('a new bed begins with the depth of the one before too, and without its sizes, shape and number', async () => {
  const fields = fieldsIn(await press('add'))
  expect(fields).toMatchObject({
    'beds.1.shape': 'rectangle',
    'beds.1.finish': 'stone',
    'beds.1.planted': 'full',
    'beds.1.lying': 'thin',
    'beds.1.depth': '4',
  })
  expect(Object.keys(fields).filter(name => /^beds\.1\.(sizes|count)/.test(name))).toEqual([])
})

test('a copied bed has all of the one that it is of, and stands at the end', async () => {
  const second = { 'beds.1.shape': 'circle', 'beds.1.finish': 'compost', 'beds.1.sizes.diameter': '9' }
  const location = await press('copy.0', second)
  expect(location).toMatch(/#bed-3$/)
  const fields = fieldsIn(location)
  for (const [name, typed] of Object.entries(OVAL))
    expect([name, fields[name.replace('beds.0', 'beds.2')]]).toEqual([name, typed])
  expect(fields).toMatchObject(second)
})

test('a copy of a bed that isn’t there is none', async () => {
  for (const at of ['9', '-1', '00x'])
    expect(Object.keys(fieldsIn(await press(`copy.${at}`))).some(name => name.startsWith('beds.1'))).toBe(
      false,
    )
})

test('no more beds are copied than can be taken', async () => {
  const forty = Object.fromEntries(
    Array.from({ length: 40 }, (_one, at) =>
      Object.entries(OVAL).map(([name, typed]) => [name.replace('.0.', `.${at}.`), typed]),
    ).flat(),
  )
  const answer = await app
    .browser()
    .post('/ballpark')
    .type('form')
    .send({ ...forty, do: 'copy.0' })
  const page = answer.status === 303 ? await get(answer.headers.location!.split('#')[0]!) : answer.text
  expect(page).toContain('<legend>Bed 40</legend>')
  expect(page).not.toContain('<legend>Bed 41</legend>')
  expect(page).not.toContain('value="copy.')
})

test('the shapes are folded once a size is typed, and open before', async () => {
  const pick = /<details class="pick"( open)?>/
  expect(pick.exec(await get('/'))![1]).toBe(' open')
  const page = await get(await press('range').then(at => at.split('#')[0]!))
  expect(pick.exec(page)![1]).toBeUndefined()
  expect(page).toMatch(/<span class="picked">.*<span class="choice-text">Oval<\/span>/)
})

test('a bed after the first says in a line with what it begins', async () => {
  const page = await get((await press('add')).split('#')[0]!)
  expect(/id="bed-2-rest" data-live>([^<]*)</.exec(page)![1]).toBe(
    'Decorative stone · Plants: Full · Old mulch: A thin layer · Depth when done: 4',
  )
  expect(page).not.toContain('id="bed-1-rest"')
})

test('the strip says the range so far, and what is missing first, with the way there', async () => {
  expect(await get('/')).toMatch(/id="range-strip" data-live hidden>/)
  const page = await get((await press('add')).split('#')[0]!)
  expect(page).toMatch(
    /class="strip-label">Your range so far<.*class="strip-figure" href="#range">\$[\d,]+ to \$[\d,]+</,
  )
  expect(missingOn(page)).toEqual(['#beds-1-sizes-length', 'Bed 2: fill in “Length”'])
  const unclear = await get(
    `${await press('range', {}).then(at => at.split('#')[0]!)}&beds.1.sizes.length=long`,
  )
  expect(missingOn(unclear)).toEqual(['#beds-1-sizes-length', 'Bed 2: check “Length”'])
  expect(missingOn((await ask('live', { ...OVAL, 'beds.0.finish': 'gravel' })).text)).toEqual([
    '#beds-0-finish',
    'Bed 1: pick a material',
  ])
  expect(missingOn((await ask('live', { ...OVAL, 'beds.0.count': 'lots' })).text)).toEqual([
    '#beds-0-count',
    'Bed 1: check your answers',
  ])
  expect(missingOn((await ask('live', OVAL)).text)).toBeNull()
  const inSpanish = await get(`/?beds.0.sizes.length=12&beds.0.shape=oval&language=es`)
  expect(missingOn(inSpanish)).toEqual(['#beds-0-sizes-width', 'Jardinera 1: falta «Ancho»'])
})

const OUTSIDE = 'We don’t usually work in this ZIP code.'

test.each([
  ['99999', true],
  ['99999-1234', true],
  ['78701', false],
  ['7', false],
  ['9999', false],
  ['', false],
])('of the ZIP %j it is told at once that nobody comes there: %s', async (postcode, told) => {
  for (const part of ['live', 'contact'])
    expect([part, (await ask(part, { ...OVAL, postcode })).text.includes(OUTSIDE)]).toEqual([part, told])
  for (const path of ['/', '/request']) {
    const page = await get(`${path}?${new URLSearchParams({ ...OVAL, postcode })}`)
    expect([path, page.includes(OUTSIDE)]).toEqual([path, told])
    if (told) expect(page).toMatch(/id="postcode-served"[^>]*>\s*<p class="warning">.*href="tel:5125550100"/)
  }
})

test('a ZIP outside that nobody was told of is said beside its field, and sent once more it is taken', async () => {
  const typed = { ...CAROL, postcode: '99999' }
  const shown = await sendForm(app, { ...typed, shown: '1 2 3', shownPostcode: '' })
  expect(shown.status).toBe(422)
  expect(shown.text).toMatch(/id="postcode-error">We don’t usually work in this ZIP code/)
  expect(shown.text.match(/We don’t usually work/g)).toHaveLength(2)
  const field = (name: string) => new RegExp(`name="${name}" value="([^"]*)"`).exec(shown.text)![1]!
  const again = { ...typed, shown: field('shown'), shownPostcode: field('shownPostcode') }
  expect((await sendForm(app, again)).status).toBe(303)
})

test('as the ZIP is typed the range that will be sent along is the one with the travel', async () => {
  const of = async (postcode: string) => (await ask('contact', { ...OVAL, postcode })).text
  const shown = (text: string) => /name="shown" value="([^"]*)"/.exec(text)![1]!
  const [near, far] = [await of(''), await of('78701')]
  expect(far).toContain('name="shownPostcode" value="78701"')
  // Travel to it is 25, and ranges are in steps of ten.
  expect(Number(shown(far).split(' ')[1])).toBe(Number(shown(near).split(' ')[1]) + 25)
  expect(far).toMatch(/id="contact-figure">\$[\d,]+ to \$[\d,]+</)
  expect((await ask('contact', { ...OVAL, 'beds.0.sizes.width': 'wide' })).text).toBe('')
})

test('a header that asks for no part of ours gets the page', async () => {
  for (const part of ['constructor', 'toString', 'other']) expect((await ask(part, OVAL)).status).toBe(303)
})

test('a link picks the material and fills in the ZIP', async () => {
  const page = await get('/?material=pine-straw&postcode=78701')
  expect(page).toMatch(/name="beds\.0\.finish" value="pine-straw"[^>]* checked/)
  expect(page).toMatch(/name="postcode"[^>]* value="78701"/)
  for (const unknown of ['gravel', '', 'constructor'])
    expect(await get(`/?material=${unknown}`)).toMatch(
      /name="beds\.0\.finish" value="shredded-wood"[^>]* checked/,
    )
  // Beds that are told win over it.
  const told = await get(`/?${new URLSearchParams(OVAL)}&material=pine-straw`)
  expect(told).toMatch(/name="beds\.0\.finish" value="stone"[^>]* checked/)
})

test('a picked language is sent along where no cookie is kept, and is not where one is', async () => {
  const page = await get('/?language=es')
  expect(page).toContain('<input type="hidden" name="language" value="es">')
  const location = await press('range', { language: 'es' })
  expect(location).toMatch(/&language=es#range$/)
  const contact = await press('go-on', { language: 'es' })
  expect(await get(contact)).toContain('<input type="hidden" name="language" value="es">')
  const sent = await sendForm(app, { language: 'es' })
  expect(sent.location).toMatch(/^\/r\/[\w-]+\?language=es$/)
  expect(await get(sent.location!)).toContain('<html lang="es">')
  const keeps = app.browser()
  await keeps.get('/?language=es')
  const kept = await keeps
    .post('/ballpark')
    .type('form')
    .send({ ...OVAL, language: 'es', do: 'range' })
  expect(kept.headers.location).not.toContain('language')
  expect(await get('/')).not.toContain('name="language"')
})
