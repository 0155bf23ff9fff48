import { afterAll, beforeAll, expect, test } from 'vitest'
import { writeLetter } from '../../src/letters/letter.ts'
import { messages } from '../../src/messages.ts'
import { findOutboxMessage } from '../../src/outbox/queries.ts'
import { filesFromZip } from '../../src/rates/csv/zip.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { ALICE, HUGO, helperBrowser, openBusiness } from '../helpers/people.ts'
import { putInForce } from '../helpers/rate-tables.ts'
import { sendRequest } from '../helpers/requests.ts'
import { walkWhatComesUnasked } from './clock-walk.ts'
import { walkOpenRoutes, walkToABooking, walkToOtherEnds } from './homeowner-walk.ts'
import { type Heard, listener } from './listening.ts'
import { type Marker, markedTable } from './marked-table.ts'

let app: TestApp
let markers: Marker[]
let number: string
let ownerId: number

beforeAll(async () => {
  app = await testApp()
  await openBusiness(app)
  await helperBrowser(app)
  ownerId = (
    await app.db.selectFrom('account').select('id').where('role', '=', 'owner').executeTakeFirstOrThrow()
  ).id
  await putInForce(app, inForce => {
    const marked = markedTable(inForce)
    markers = marked.markers
    return marked.table
  })
  number = (await sendRequest(app)).number
})
afterAll(() => app.close())

const tellsOf = (text: string) => markers.filter(({ spellings }) => spellings.some(one => text.includes(one)))
const leaks = (heard: Heard[]) =>
  heard.flatMap(({ route, said }) => tellsOf(said).map(({ of }) => `${route} tells the ${of}`))
const routesFor = (...access: string[]) =>
  app.routes.filter(route => access.includes(route.access)).map(({ method, path }) => `${method} ${path}`)
const addressOf = (path: string) =>
  path
    .replace(':number', number)
    .replace(':day', '2026-03-03')
    .replace(':id', '1')
    .replace(':finish', 'shredded-wood')

async function signIn({ email, password }: { email: string; password: string }): Promise<string> {
  const answer = await listenerOf().post('/sign-in', '/sign-in', { email, password })
  expect(answer.status).toBe(303)
  return /session=[^;"]+/.exec(answer.said)![0]
}
const listenerOf = (cookie?: string) => listener(app, cookie)

test('the owner’s pages tell every one of these figures and names, so that a leak would be seen', async () => {
  const owner = listenerOf(await signIn(ALICE))
  const pages = routesFor('owner').filter(route => route.startsWith('GET ') && !route.endsWith('.zip'))
  for (const route of pages) await owner.get(route.slice(4), addressOf(route.slice(4)))
  const told = owner.heard.flatMap(({ said }) => tellsOf(said).map(({ of }) => of))
  for (const of of [
    'wage',
    'lower rate, stone, largest',
    'bag of shredded-wood',
    'name of the bag of shredded-wood',
  ])
    expect(told).toContain(of)
  const zip = await app.server.inject({
    url: '/rates/csv/rates.zip',
    headers: { cookie: await signIn(ALICE) },
  })
  const sheets = filesFromZip(zip.rawPayload)
  const all = sheets.ok ? Object.values(sheets.files).join('\n') : ''
  expect(markers.length).toBeGreaterThan(80)
  expect(markers.filter(marker => !tellsOf(all).includes(marker))).toEqual([])
})

let walked: Promise<Heard[]> | undefined

/** What a homeowner hears who opens, sends and is refused everything; walked once, for whichever test asks first. */
function homeownerHeard(): Promise<Heard[]> {
  const walk = async () => {
    const homeowner = listenerOf()
    await walkOpenRoutes(homeowner, app)
    await walkToABooking(homeowner, app, ownerId)
    await walkToOtherEnds(homeowner, app, ownerId)
    await walkWhatComesUnasked(homeowner, app, ownerId)
    return homeowner.heard
  }
  walked ??= walk()
  return walked
}

test('a homeowner is told none of them, whatever is opened, sent or refused', async () => {
  const heard = await homeownerHeard()
  expect(routesFor('open', 'link', 'asset').filter(route => !heard.some(one => one.route === route))).toEqual(
    [],
  )
  expect(heard.filter(({ status }) => status >= 500)).toEqual([])
  expect(leaks(heard)).toEqual([])
})

test('a helper is told none of them, and neither is whoever is refused the owner’s pages', async () => {
  const helper = listenerOf(await signIn(HUGO))
  const stranger = listenerOf()
  for (const route of [...routesFor('staff'), ...routesFor('owner')]) {
    const [method, path] = route.split(' ') as ['GET' | 'POST', string]
    for (const one of [helper, stranger])
      await (method === 'GET' ? one.get(path, addressOf(path)) : one.post(path, addressOf(path)))
  }
  await helper.get('/days', '/days?from=2026-03-02')
  const seen = helper.heard.filter(({ route, status }) => routesFor('staff').includes(route) && status < 300)
  expect(seen.map(({ route }) => route)).toEqual(expect.arrayContaining(['GET /days', 'GET /password']))
  expect(leaks([...helper.heard.map(withoutNamesToBuyBy), ...stranger.heard])).toEqual([])
})

// Whoever fetches something has to know what it is called, so these pages name it; nothing that it costs.
const FETCHING = ['/on-hand', '/loads']

function withoutNamesToBuyBy(heard: Heard): Heard {
  if (!FETCHING.some(page => heard.route.split(' ')[1]!.startsWith(page))) return heard
  const names = markers.filter(({ of }) => /^(?:Spanish )?(?:name|slug) of/.test(of))
  const said = names
    .flatMap(({ spellings }) => spellings)
    .reduce((text, name) => text.replaceAll(name, ''), heard.said)
  return { ...heard, said }
}

test('no mail tells any of them, to whomever it goes', async () => {
  await homeownerHeard()
  const rows = await app.db.selectFrom('outbox').select(['id', 'kind']).execute()
  const letters: Heard[] = []
  for (const { id, kind } of rows) {
    const letter = await writeLetter({ ...app.deps, messages }, (await findOutboxMessage(app.db, id))!)
    if (letter)
      letters.push({
        route: kind,
        path: '',
        status: 200,
        location: '',
        said: Object.values(letter).join('\n'),
      })
  }
  const written = letters.map(({ route }) => route)
  expect(Object.keys(messages).filter(kind => !written.includes(kind))).toEqual([])
  expect(leaks(letters)).toEqual([])
  const kept = await app.db.selectFrom('outbox').selectAll().execute()
  expect(tellsOf(JSON.stringify(kept))).toEqual([])
})
