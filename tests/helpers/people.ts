import { argon2Sync, randomBytes } from 'node:crypto'
import { sql } from 'kysely'
import { findAccountByEmail, insertAccount } from '../../src/account/queries.ts'
import { startSessionIn } from '../../src/account/sign-in.ts'
import { setUpAddress } from '../../src/first-run/first-run.ts'
import type { TestApp } from './app.ts'
import { keptRows } from './emptying.ts'

/** Alice owns the business; what she signs in with. */
export const ALICE = {
  name: 'Alice Fern',
  email: 'alice@fernbeds.example',
  password: 'wheelbarrow beneath a pear tree',
}

/** Hugo helps: he sees the days, and no rates. */
export const HUGO = {
  name: 'Hugo Moss',
  email: 'hugo@fernbeds.example',
  password: 'thirty yellow buckets of rain',
}

/**
 * The set-up form filled in: six finishes, edging, ZIPs 78701 to 78703 and 787* at 25, Monday to Friday, 8 crew
 * hours a day at 1 hour per cubic yard, a minimum of 150, quotes that hold 30 days, answers within 2.
 */
export const SET_UP_FIELDS: Record<string, string | string[]> = {
  'owner.name': ALICE.name,
  'owner.email': ALICE.email,
  'owner.password': ALICE.password,
  'business.name': 'Fern Beds',
  'business.phone': '(512) 555-0100',
  'business.email': 'hello@fernbeds.example',
  'business.timeZone': 'America/Chicago',
  'business.laborHoursADay': '8',
  'business.quoteHoldsDays': '30',
  'business.answerWithinDays': '2',
  'workingDays[]': ['1', '2', '3', '4', '5'],
  units: 'us',
  currency: 'USD',
  'rates.shredded-wood.0.lower': '80',
  'rates.shredded-wood.0.upper': '100',
  'rates.dyed-wood.0.lower': '90',
  'rates.dyed-wood.0.upper': '110',
  'rates.bark-nuggets.0.lower': '100',
  'rates.bark-nuggets.0.upper': '130',
  'rates.pine-straw.0.lower': '60',
  'rates.pine-straw.0.upper': '80',
  'rates.compost.0.lower': '70',
  'rates.compost.0.upper': '90',
  'rates.stone.0.lower': '150',
  'rates.stone.0.upper': '190',
  'extras.edging.lower': '1.50',
  'extras.edging.upper': '2.50',
  minimumCharge: '150',
  laborHoursPerVolume: '1',
  'travel.0.postcodes': '78701, 78702, 78703',
  'travel.0.charge': '25',
}

/** The form of the business on the page Settings, filled in with the same. */
export const SETTINGS_FIELDS: Record<string, string | string[]> = {
  ...Object.fromEntries(
    Object.entries(SET_UP_FIELDS).filter(([name]) => /^(business|workingDays)/.test(name)),
  ),
  'business.country': 'US',
  'business.photosEach': '6',
  'business.photosMegabytes': '1000',
  'business.photosMonths': '6',
}

export type Browser = ReturnType<TestApp['browser']>

/** The path of the set-up page, which is there until the first owner is. */
export async function setUpPath(app: TestApp): Promise<string> {
  const address = await setUpAddress(app.deps)
  if (!address) throw new Error('There is an owner already.')
  return new URL(address).pathname
}

/** The business as it was set up once in this worker, and what the owner's browser was given. */
interface Opened {
  rows: string
  cookies: string[]
}

const opened = new Map<string, Opened>()

/**
 * Sets the business up through its own form, and gives the owner's browser, signed in by that. The same again, at the
 * same time of the clock, is put back as it was then: it is most of what many tests do.
 */
export async function openBusiness(app: TestApp, overrides: Record<string, string | string[]> = {}) {
  const { email, password } = ALICE
  const same = JSON.stringify([app.deps.now(), app.deps.config.publicUrl, app.deps.secretKey, overrides])
  const before = opened.get(same)
  if (before) return { owner: await openAgain(app, before), email, password }
  const wasEmpty = !(await keptRows(app.store)).includes('insert into')
  const owner = app.browser()
  const fields = { ...SET_UP_FIELDS, ...overrides }
  const answer = await owner
    .post(await setUpPath(app))
    .type('form')
    .send(fields)
  if (answer.status !== 303) throw new Error(`Set-up answered ${answer.status}: ${answer.text}`)
  await app.db
    .updateTable('account')
    .set({ password_hash: cheapHash(String(fields['owner.password'])) })
    .execute()
  // Most tests choose tomorrow, or a day soon after.
  await app.db.updateTable('business').set({ notice_days: 1 }).execute()
  const cookies = answer.get('Set-Cookie') ?? []
  if (wasEmpty) opened.set(same, { rows: await keptRows(app.store), cookies })
  return { owner, email, password }
}

async function openAgain(app: TestApp, { rows, cookies }: Opened): Promise<Browser> {
  await app.store.executeSql(rows)
  // A write that the store counts, for whoever has seen it empty.
  await app.db
    .updateTable('business')
    .set({ name: sql.ref('name') })
    .execute()
  const owner = app.browser()
  owner.jar.setCookies(cookies, new URL(app.base).hostname, '/')
  return owner
}

/** A browser signed in as someone who has an account. */
export async function signedIn(app: TestApp, person: { email: string; password: string }): Promise<Browser> {
  const browser = app.browser()
  const { email, password } = person
  const answer = await browser.post('/sign-in').type('form').send({ email, password })
  if (answer.status !== 303) throw new Error(`Sign-in answered ${answer.status}: ${answer.text}`)
  return browser
}

/** What is stored where no password is known, and none ever fits: a hash of nothing but zeros. */
const NO_PASSWORD = `$argon2id$v=19$m=19456,t=2,p=1$${'A'.repeat(22)}$${'A'.repeat(43)}`

/** What is stored of a password whose every use need not cost what it should outside of tests. */
function cheapHash(password: string): string {
  const nonce = randomBytes(16)
  const costs = { parallelism: 1, tagLength: 32, memory: 8, passes: 1 }
  const tag = argon2Sync('argon2id', { message: Buffer.from(password), nonce, ...costs })
  const [salt, hash] = [nonce, tag].map(bytes => bytes.toString('base64').replace(/=+$/, ''))
  return `$argon2id$v=19$m=${costs.memory},t=${costs.passes},p=1$${salt}$${hash}`
}

const OLGA = { name: 'Olga Sedge', email: 'olga@fernbeds.example', role: 'office' as const }
const HELPER = { name: HUGO.name, email: HUGO.email, role: 'helper' as const }
/** How long whoever takes an invitation stays signed in, when it isn't as usual. */
const LASTING = { office: undefined, helper: { days: 90, idleDays: 90 } }

/** A session of somebody in the office, whose name is Olga, and who has no password to sign in with. Gives what its cookie says. */
export function officeCookie(app: TestApp): Promise<string> {
  return cookieOf(app, OLGA, NO_PASSWORD)
}

/** The browser of somebody in the office. */
export async function officeBrowser(app: TestApp): Promise<Browser> {
  return browserWith(app, await officeCookie(app))
}

/** Hugo's browser, who has an account as if he had taken the owner's invitation. */
export async function helperBrowser(app: TestApp): Promise<Browser> {
  return browserWith(app, await cookieOf(app, HELPER, cheapHash(HUGO.password)))
}

function browserWith(app: TestApp, cookie: string): Browser {
  const browser = app.browser()
  browser.jar.setCookies([`${cookie}; Path=/`], new URL(app.base).hostname, '/')
  return browser
}

async function cookieOf(
  { db, deps }: TestApp,
  person: typeof OLGA | typeof HELPER,
  password_hash: string,
): Promise<string> {
  const now = deps.now()
  const here = {
    ...{ name: { browser: null, system: null }, oldSecret: undefined },
    language: 'en' as const,
  }
  const session = await db.transaction().execute(async trx => {
    const found = await findAccountByEmail(trx, person.email)
    const row = { ...person, password_hash, made_at: now.toString() }
    const account = found ?? { ...row, ...(await insertAccount(trx, row)) }
    return startSessionIn(trx, now, account, here, LASTING[person.role])
  })
  return `session=${session!.secret}`
}

/** Has the owner invite somebody, Hugo unless told otherwise; gives the path of the link. */
export async function invitationPath(owner: Browser, fields: Record<string, string> = {}): Promise<string> {
  const invited = {
    'invite.name': HUGO.name,
    'invite.email': HUGO.email,
    'invite.role': 'helper',
    'invite.language': 'en',
  }
  const answer = await owner
    .post('/settings/invitations')
    .type('form')
    .send({ ...invited, ...fields })
  if (answer.status !== 303) throw new Error(`Inviting answered ${answer.status}: ${answer.text}`)
  const page = await owner.get(answer.headers.location!)
  return new URL(/value="(http[^"]*\/invitation\/[^"]*)"/.exec(page.text)![1]!).pathname
}

/** Has everybody who is signed in have typed the password just now, as what is dangerous asks for it again after a quarter of an hour. */
export async function provedNow(app: TestApp): Promise<void> {
  await app.db.updateTable('session').set({ proved_at: app.deps.now().toString() }).execute()
}
