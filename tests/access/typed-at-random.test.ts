import { expect, test } from 'vitest'
import { Budget, PHOTO_LIMITS } from '../../src/limits/budget.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import {
  ALICE,
  type Browser,
  helperBrowser,
  officeBrowser,
  openBusiness,
  setUpPath,
} from '../helpers/people.ts'
import { SEED } from '../helpers/seed.ts'
import { formsOf } from './forms.ts'
import { placesOf } from './pages-with-forms.ts'
import { routeOf } from './route-of.ts'
import { sendRaw, sendTry } from './sending-at-random.ts'
import { type Try, tryAtRandom } from './tries.ts'
import { oneOf, type Random, randomFrom } from './typed-at-random.ts'

/** How many requests are sent: some in every run, and as many as `FUZZ` says in a long one. */
const FUZZ = Number(process.env.FUZZ ?? 150)
const IN_A_STATE = 15
/** What was typed at random may make a business in which little can be done any more, so it begins anew. */
const IN_A_BUSINESS = 400
/** Whoever is signed out by these would be refused all the rest unread: mostly they are left out, and then the business begins anew. */
const SIGNED_OUT_BY = /^\/(sign-out|password|settings\/(staff|sessions|invitations)|new-password)/
const MOST_FAULTS = 20

interface Told {
  sent: number
  refused: number
  /** The routes that something was sent to, as 'POST /rates'. */
  reached: Set<string>
  faults: string[]
}

test(
  'whatever is typed, chosen, asked for or sent, by whoever may, no answer is a fault of ours, and none stays away',
  async () => {
    const seed = SEED ?? 1127
    const told: Told = { sent: 0, refused: 0, reached: new Set(), faults: [] }
    for (let nth = 0; told.sent < FUZZ && told.faults.length < MOST_FAULTS; nth++)
      await tryFrom((seed + nth) % 1_000_000_000, told)
    if (process.env.FUZZ)
      console.log(
        `${told.sent} requests sent from seed ${seed} to ${told.reached.size} routes, ${told.refused} refused`,
      )
    expect(told.faults, 'a run with the TEST_SEED of a fault begins with its business').toEqual([])
    // Most of what is sent so is wrong, and some of it is right.
    expect(told.refused).toBeGreaterThan(told.sent / 10)
    expect(told.refused).toBeLessThan(told.sent)
  },
  Math.max(120_000, FUZZ * 500),
)

/** Mostly in a business; sometimes before there is one. */
async function tryFrom(seed: number, told: Told) {
  const random = randomFrom(seed)
  // What strangers may ask for comes back with time, which stands still for all else.
  const [budget, photos] = [new Budget(Temporal.Now.instant), new Budget(Temporal.Now.instant, PHOTO_LIMITS)]
  const app = await testApp({ load: { budget, photos } })
  await (random() < 0.15 ? trySettingUp : tryBusiness)(app, seed, random, told)
  const { statusCode } = await app.server.inject('/livez')
  if (statusCode !== 200) told.faults.push(`TEST_SEED=${seed}: no longer alive, ${statusCode}`)
  await app.close().catch(() => {})
}

async function trySettingUp(app: TestApp, seed: number, random: Random, told: Told) {
  const address = await setUpPath(app)
  const page = await pageAt(app, '', address)
  const until = Math.min(FUZZ, told.sent + IN_A_STATE)
  const people = { owner: '', office: '', helper: '', nobody: '' }
  // What is for homeowners says that it isn't open yet.
  const place = { address, page, addresses: [], seed, until, meant: [503] }
  await tryState(app, people, place, random, told)
}

async function tryBusiness(app: TestApp, seed: number, random: Random, told: Told) {
  const { owner } = await openBusiness(app)
  const people = {
    owner: cookieOf(app, owner),
    office: cookieOf(app, await officeBrowser(app)),
    helper: cookieOf(app, await helperBrowser(app)),
    nobody: '',
  }
  const { id } = await app.db
    .selectFrom('account')
    .select('id')
    .where('email', '=', ALICE.email)
    .executeTakeFirstOrThrow()
  const states = Object.values(placesOf(app, id)).flat()
  const until = Math.min(FUZZ, told.sent + IN_A_BUSINESS)
  const addresses: string[] = []
  for (let misses = 0; told.sent < until && misses < 20; ) {
    // Where a state can't be made any more, another one is.
    const address = await Promise.try(oneOf(random, states)).catch(() => undefined)
    const page = address === undefined ? '' : await pageAt(app, people.owner, address)
    if (page === '') misses++
    else if (
      !(await tryState(app, people, { address: address!, page, addresses, seed, until }, random, told))
    )
      break
  }
}

interface Place {
  address: string
  page: string
  addresses: string[]
  seed: number
  until: number
  /** An answer that would be a fault elsewhere. */
  meant?: number[]
}

/** Tries some in a state; false when who was signed in may be no longer. */
async function tryState(
  app: TestApp,
  people: Record<string, string>,
  { address, page, addresses, seed, until, meant = [] }: Place,
  random: Random,
  told: Told,
): Promise<boolean> {
  const forms = formsOf(page, address)
  addresses.push(address, ...linksIn(page))
  if (addresses.length > 300) addresses.splice(0, addresses.length - 300)
  for (let nth = 0; nth < IN_A_STATE && told.sent < until; nth++) {
    const one = await tryAtRandom({ forms, addresses, routes: app.routes }, random)
    const signsOut = one.method === 'POST' && SIGNED_OUT_BY.test(one.address)
    if (signsOut && random() < 0.9) continue
    const who = oneOf(random, ['owner', 'owner', 'owner', 'office', 'helper', 'nobody'])
    const isRaw = random() < 0.05
    app.log.length = 0
    const { status, page: shown } = await (isRaw ? sendRaw : sendTry)(app, people[who]!, one)
    told.sent++
    const route = routeOf(app.routes, one.method, one.address)
    if (route) told.reached.add(`${route.method} ${route.path}`)
    if (typeof status === 'number' && status >= 400) told.refused++
    // What goes wrong behind an answer that was sent is in the log alone.
    const isFault = status === 'no answer' || (typeof status === 'number' && status >= 500)
    const isMeant = meant.includes(Number(status))
    if (!isMeant && (isFault || app.log.some(isOfFault)))
      told.faults.push(faultOf(app, seed, who, one, status))
    if (signsOut && (await pageAt(app, people.owner!, '/welcome')) === '') return false
    // What came back is a state of its own.
    if (status === 422 || status === 409)
      forms.push(...formsOf(shown, one.address.split('?')[0]!).slice(0, 5))
  }
  return true
}

const isOfFault = (line: string) => /^\{"level":[56]0/.test(line)

function faultOf(app: TestApp, seed: number, who: string, one: Try, status: number | string): string {
  const { method, address, headers, body = '' } = one
  const logged = app.log.find(isOfFault)
  const why = logged ? `${JSON.parse(logged).msg}\n${JSON.parse(logged).err?.stack}` : ''
  return `TEST_SEED=${seed}: ${status} ${method} ${address} by ${who} ${JSON.stringify(headers)} ${String(body).slice(0, 600)}\n${why}`
}

async function pageAt(app: TestApp, cookie: string, address: string): Promise<string> {
  const { status, page } = await sendTry(app, cookie, { method: 'GET', address, headers: {} })
  return status === 200 ? page : ''
}

function linksIn(page: string): string[] {
  return [...page.matchAll(/(?:href|action|src)="(\/[^"#]*)/g)].map(([, to]) => to!.replaceAll('&amp;', '&'))
}

function cookieOf(app: TestApp, browser: Browser): string {
  return browser.jar.getCookies({ domain: new URL(app.base).hostname, path: '/' } as never).toValueString()
}
