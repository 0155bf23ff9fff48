import { afterAll, beforeAll, expect, test } from 'vitest'
import { filesOf } from '../../src/rates/csv/files-of.ts'
import { zipOf } from '../../src/rates/csv/zip.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, HUGO, helperBrowser, openBusiness, setUpPath } from '../helpers/people.ts'
import { halves } from '../photos/pictures.ts'
import { bodyOf } from './filling.ts'
import { FormTrials } from './form-trials.ts'
import { formsOf } from './forms.ts'
import { NO_FORMS, NO_PAGES } from './no-pages.ts'
import { placesOf } from './pages-with-forms.ts'

test('the forms of a page are read as a browser reads them', () => {
  const page = `<form method="post" action="phone"><input type="hidden" name="a" value="&quot;1&quot;">
    <textarea name="b">\nx &lt; y</textarea><select name="c"><option value="1">1<option value="2" selected>2</select>
    <input type="radio" name="d" value="1"><input type="checkbox" name="d" value="2" checked>
    <input name="e" disabled><input type="password" name="f"><button name="do" value="x" formaction="?n=1">Go</button>
    <button type="button">No</button></form><form></form>`
  const [first, second] = formsOf(page, '/r/token/call-off?language=es')
  expect([first!.method, first!.address]).toEqual(['POST', '/r/token/phone'])
  expect(first!.controls.map(({ name, kind, value, isSent }) => [name, kind, value, isSent])).toEqual([
    ['a', 'hidden', '"1"', true],
    ['b', 'typed', 'x < y', true],
    ['c', 'picked', '2', true],
    ['d', 'ticked', '1', false],
    ['d', 'ticked', '2', true],
    ['f', 'typed', '', true],
  ])
  expect(first!.buttons).toEqual([{ name: 'do', value: 'x', address: '/r/token/call-off?n=1' }])
  expect([second!.method, second!.address]).toEqual(['GET', '/r/token/call-off?language=es'])
})

let app: TestApp
beforeAll(async () => {
  app = await testApp()
})
afterAll(() => app.close())

test('every form of every page arrives, keeps what was typed, and can be sent again from where it comes back', async () => {
  const files: Record<string, File> = {}
  const trials = new FormTrials(app, files)
  const signIn = async ({ email, password }: typeof ALICE) =>
    (await trials.ask('POST', '/sign-in', '', await bodyOf(false, Object.entries({ email, password }))))
      .cookie

  await trials.tryPage(await setUpPath(app), '')
  await openBusiness(app, { 'costs.wage': '40', 'material.compost': '28' })
  await helperBrowser(app)
  const { body } = (await findRateTable(app.db, app.deps.now()))!
  const dearer = zipOf(filesOf({ ...body, minimumCharge: '175' }), app.deps.now())
  files.files = new File([new Uint8Array(dearer)], 'rates.zip')
  files.photo = new File([new Uint8Array(await halves('#ff0000', '#0000ff').jpeg().toBuffer())], 'stone.jpg')
  files['photos.0.file'] = files.photo

  const { id } = await app.db
    .selectFrom('account')
    .select('id')
    .where('role', '=', 'owner')
    .executeTakeFirstOrThrow()
  const places = placesOf(app, id)
  const pages = app.routes.filter(({ method, path }) => method === 'GET' && !NO_PAGES.includes(path))
  expect(pages.map(({ path }) => path).sort()).toEqual([...Object.keys(places), '/set-up/:token'].sort())

  const [owner, helper] = [await signIn(ALICE), await signIn(HUGO)]
  for (const [route, addresses] of Object.entries(places)) {
    const access = pages.find(({ path }) => path === route)!.access
    const visitors = {
      open: [''],
      asset: [''],
      link: [''],
      staff: [helper, owner],
      office: [owner],
      owner: [owner],
    }[access]
    for (const address of addresses)
      for (const visitor of visitors) await trials.tryPage(await address(), visitor, ['POST /sign-out'])
  }
  await trials.tryPage('/outbox', await signIn(ALICE))

  expect(trials.faults).toEqual([])
  const posts = app.routes.filter(({ method }) => method === 'POST').map(({ path }) => `POST ${path}`)
  expect(posts.filter(post => !trials.reached.has(post) && !NO_FORMS.includes(post))).toEqual([])
  expect(trials.refused).toBeGreaterThan(posts.length)
}, 300_000)
