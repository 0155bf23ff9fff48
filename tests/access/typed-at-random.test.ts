import { expect, test } from 'vitest'
import { testApp } from '../helpers/app.ts'
import { type Browser, helperBrowser, officeBrowser, openBusiness } from '../helpers/people.ts'
import { SEED } from '../helpers/seed.ts'
import { formsOf } from './forms.ts'
import { placesOf } from './pages-with-forms.ts'
import { changedAtRandom, oneOf, type Random, randomFrom } from './typed-at-random.ts'

/** How many forms are sent: some in every run, and as many as `FUZZ` says in a long one. */
const FUZZ = Number(process.env.FUZZ ?? 120)
const IN_A_STATE = 20
/** What was typed at random may make a business in which little can be done any more, so it begins anew. */
const IN_A_BUSINESS = 400
/** Who is signed out by these would be refused all the rest unread. */
const SIGNED_OUT_BY = /^\/(sign-out|password|settings\/(staff|sessions|invitations))/

test(
  'whatever is typed into whichever form, by whoever may, no answer is a fault of ours',
  async () => {
    const seed = SEED ?? 1127
    const random = randomFrom(seed)
    const told = { sent: 0, refused: 0, faults: [] as string[] }
    while (told.sent < FUZZ && told.faults.length < 20) await typeIntoOne(random, told)
    if (process.env.FUZZ)
      console.log(`${told.sent} forms sent from seed ${seed}, ${told.refused} of them refused`)
    expect(told.faults).toEqual([])
    // Most of what is typed so is wrong, and some of it is right.
    expect(told.refused).toBeGreaterThan(told.sent / 10)
    expect(told.refused).toBeLessThan(told.sent)
  },
  Math.max(120_000, FUZZ * 500),
)

async function typeIntoOne(random: Random, told: { sent: number; refused: number; faults: string[] }) {
  const app = await testApp()
  const { owner } = await openBusiness(app)
  const staff = [owner, owner, owner, await officeBrowser(app), await helperBrowser(app), app.browser()]
  const { id } = await app.db
    .selectFrom('account')
    .select('id')
    .where('role', '=', 'owner')
    .executeTakeFirstOrThrow()
  const states = Object.values(placesOf(app, id)).flat()
  const until = Math.min(FUZZ, told.sent + IN_A_BUSINESS)
  for (let misses = 0; told.sent < until && misses < 20; ) {
    // Where a state can't be made any more, another one is.
    const address = await Promise.try(oneOf(random, states)).catch(() => undefined)
    if (address === undefined || !(await send(address, staff, random, told))) misses++
  }
  await app.close().catch(() => {})
}

async function send(
  address: string,
  staff: Browser[],
  random: Random,
  told: { sent: number; refused: number; faults: string[] },
): Promise<boolean> {
  const page = await staff[0]!.get(address)
  const forms = formsOf(page.text, address).filter(
    form => form.method === 'POST' && !form.isMultipart && !SIGNED_OUT_BY.test(form.address),
  )
  if (page.status !== 200 || forms.length === 0) return false
  for (let nth = 0; nth < IN_A_STATE && told.sent < FUZZ; nth++) {
    const form = oneOf(random, forms)
    const body = changedAtRandom(form, random)
    const { status } = await oneOf(random, staff)
      .post(form.address)
      .set('content-type', 'application/x-www-form-urlencoded')
      .timeout(20_000)
      .send(body)
    told.sent++
    if (status >= 400) told.refused++
    if (status >= 500) told.faults.push(`${status} POST ${form.address} ${body.slice(0, 400)}`)
  }
  return true
}
