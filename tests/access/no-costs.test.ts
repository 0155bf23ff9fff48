import { afterAll, beforeAll, expect, test } from 'vitest'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { moneyInWords } from '../../src/language/money-in-words.ts'
import { writeLetter } from '../../src/letters/letter.ts'
import { messages } from '../../src/messages.ts'
import { findOutboxMessage } from '../../src/outbox/queries.ts'
import { composeQuote } from '../../src/quotes/compose-quote.ts'
import { moneyFigures } from '../../src/quotes/figures.ts'
import { priceRequest } from '../../src/quotes/pricing.ts'
import { filesFromZip } from '../../src/rates/csv/zip.ts'
import { requireRequest } from '../../src/requests/queries.ts'
import { leaveVisitOut } from '../../src/visits/visit.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { quotedRequest } from '../helpers/bookings.ts'
import { readPdf } from '../helpers/pdf.ts'
import { ALICE, HUGO, helperBrowser, officeCookie, openBusiness } from '../helpers/people.ts'
import { putInForce } from '../helpers/rate-tables.ts'
import { sendRequest } from '../helpers/requests.ts'
import { walkWhatComesUnasked } from './clock-walk.ts'
import { walkOpenRoutes, walkToABooking, walkToOtherEnds } from './homeowner-walk.ts'
import { type Heard, listener } from './listening.ts'
import { type Marker, markedTable } from './marked-table.ts'
import { changePrice, walkOfStaff } from './staff-walk.ts'

let app: TestApp
let markers: Marker[]
let marked: RateTable
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
    const made = markedTable(inForce)
    markers = made.markers
    marked = made.table
    return marked
  })
  number = (await sendRequest(app)).number
})
afterAll(() => app.close())

// A figure stands in pieces, so that columns line up at the point.
const inOnePiece = (text: string) => text.replaceAll(/<\/span><span class="(?:part|unit)">/g, '')
const tellsOf = (text: string) => {
  const whole = inOnePiece(text)
  return markers.filter(({ spellings }) => spellings.some(one => whole.includes(one)))
}
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
  const office = listenerOf(await officeCookie(app))
  const owners = routesFor('owner')
  for (const route of [...routesFor('staff', 'office'), ...owners]) {
    const [method, path] = route.split(' ') as ['GET' | 'POST', string]
    for (const one of owners.includes(route) ? [helper, stranger, office] : [helper, stranger])
      await (method === 'GET' ? one.get(path, addressOf(path)) : one.post(path, addressOf(path)))
  }
  await helper.get('/days', '/days?from=2026-03-02')
  const seen = helper.heard.filter(({ route, status }) => routesFor('staff').includes(route) && status < 300)
  expect(seen.map(({ route }) => route)).toEqual(expect.arrayContaining(['GET /days', 'GET /password']))
  expect(leaks([...helper.heard.map(withoutNamesToBuyBy), ...stranger.heard, ...office.heard])).toEqual([])
  expect(office.heard.filter(({ status }) => status !== 403)).toEqual([])
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

// Who fetches has to know what it is called, how much goes on a truck, and who comes; that costs nothing yet.
const NO_MONEY = /^(?:Spanish )?(?:name|slug) of|^volume of the truck$|^payload$|size of job$/

/** Words that stand beside what work costs and earns. */
const EARNING = /margin|labor hour costs|per labor hour|it costs you|next best|\bwages?\b|overhead/i

// Pages on which whoever doesn't see costs reads no amount at all.
const NO_AMOUNTS = /^GET \/(?:loads|on-hand|orders|days)\b|\/worksheet$/

const costsIn = (heard: Heard[]) => [
  ...leaks(heard).filter(leak => !NO_MONEY.test(leak.slice(leak.indexOf(' tells the ') + 11))),
  ...heard.flatMap(({ route, said }) => {
    const found = [EARNING.exec(said), NO_AMOUNTS.test(route) ? /\$\d.{0,9}/.exec(said) : null]
    return found.flatMap(match => (match ? [`${route} says ${match[0]}`] : []))
  }),
]

test('nobody in the office or in the truck is told a cost or a margin, nor led to what is refused', async () => {
  const [office, helper] = [listenerOf(await officeCookie(app)), listenerOf(await signIn(HUGO))]
  // What the homeowner chooses needs the room that is taken here.
  await homeownerHeard()
  const faults = await walkOfStaff(app, ownerId, { office, helper })
  await putInForce(app, () => marked)
  expect([...faults, ...costsIn([...office.heard, ...helper.heard])]).toEqual([])
})

test('the price of a job is told to the office without what the owner reads of its costs', async () => {
  const { id, number } = await sendRequest(app)
  await leaveVisitOut(app.deps, ownerId, id)
  const [office, owner] = [listenerOf(await officeCookie(app)), listenerOf(await signIn(ALICE))]
  const priced = await priceRequest(app.db, app.deps.now(), await requireRequest(app.db, number))
  const { net, lines, total } = composeQuote(priced, { amounts: null, added: [] })
  const money = moneyFigures(priced, net, null, true)
  const shown = [...lines.map(({ amount }) => amount), total].map(amount => moneyInWords(amount, 'USD', 'en'))
  const secret = [...money.earnings, ...money.costs]
    .map(({ value, unit }) => (unit ? `${value} ${unit}` : value))
    .filter(one => !shown.includes(one))
  expect(secret.length).toBeGreaterThan(5)
  const pages = {
    '/queue/:number/quote': secret,
    '/queue/:number/worksheet': secret.slice(-3),
    '/queue/:number': [],
  }
  for (const [path, told] of Object.entries(pages)) {
    const address = path.replace(':number', number)
    const read = inOnePiece((await owner.open(path, address)).said)
    for (const figure of told) expect(read).toContain(figure)
    const { said, status } = await office.open(path, address)
    expect(status).toBe(200)
    expect(secret.filter(figure => inOnePiece(said).includes(figure))).toEqual([])
  }
  await changePrice(office, number)
  const quoted = await quotedRequest(app)
  const { rawPayload } = await app.server.inject({
    url: `/queue/${quoted.number}/price.pdf`,
    headers: { cookie: await officeCookie(app) },
  })
  const paper = (await readPdf(rawPayload)).text
  expect(paper).toMatch(/Total.*\$/)
  office.heard.push({
    route: 'GET /queue/:number/price.pdf',
    path: '',
    status: 200,
    location: '',
    said: paper,
  })
  expect(costsIn(office.heard)).toEqual([])
})

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
