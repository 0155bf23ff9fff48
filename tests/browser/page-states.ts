import { changeRole } from '../../src/account/change-role.ts'
import { requireBusiness } from '../../src/business/queries.ts'
import { setRoom } from '../../src/days/work-day.ts'
import { formsOf } from '../access/forms.ts'
import { placesOf } from '../access/pages-with-forms.ts'
import type { TestApp } from '../helpers/app.ts'
import { type Browser, openBusiness, setUpPath } from '../helpers/people.ts'
import { BEDS } from '../helpers/request-form.ts'
import { dayChoiceStates } from './day-choice-states.ts'

/** A page in one of its states: where it is when its turn comes, after what it needs was made. */
export interface PageState {
  name: string
  address: () => string | Promise<string>
  /** Everybody's pages are looked at in both languages, the owner's in English. */
  who: 'homeowner' | 'owner'
  /** Also looked at as it comes back when its form is sent with every field emptied. */
  faults?: boolean
}

const EMPTY_LISTS = [
  '/queue',
  '/days',
  '/customers',
  '/outbox',
  '/rates',
  '/rates/versions',
  '/rates/csv',
  '/settings',
]
const HOMEOWNERS = [
  '/',
  '/request',
  '/sign-in',
  '/new-password',
  '/sign-in-link',
  '/forgot-password',
  '/invitation',
  '/r/',
  '/c/',
  '/b/',
  '/privacy',
]

/** Every page in every state that looks different, in an order in which each can still be made. */
export async function* pageStates(app: TestApp): AsyncGenerator<PageState> {
  const homeowner = (name: string, address: string): PageState => ({
    name,
    address: () => address,
    who: 'homeowner',
  })
  yield homeowner('the form before there is a business', '/')
  yield { ...homeowner('the set-up', await setUpPath(app)), faults: true }

  const { owner } = await openBusiness(app, { 'costs.wage': '40', 'material.compost': '28' })
  for (const address of EMPTY_LISTS)
    yield { name: `${address} with nothing in it`, address: () => address, who: 'owner' }
  yield homeowner('an address that is not there', '/nowhere')
  yield homeowner('a link that is not one', `/r/${'A'.repeat(43)}`)

  const { id } = await app.db.selectFrom('account').select('id').executeTakeFirstOrThrow()
  for (const [route, addresses] of Object.entries(placesOf(app, id))) {
    const who = HOMEOWNERS.some(start => route === start || (start !== '/' && route.startsWith(start)))
      ? 'homeowner'
      : 'owner'
    // Its link ends every session of the owner.
    if (route.startsWith('/new-password')) continue
    for (const [nth, address] of addresses.entries())
      yield { name: `${route} (${nth + 1})`, address, who, faults: nth === 0 }
  }

  const who = await addHelper(app)
  yield { name: 'the queue of one person', address: () => `/queue?who=${who}`, who: 'owner' }
  await changeRole(app.deps, id, who, 'office')
  yield { name: 'Settings with somebody who works here', address: () => '/settings', who: 'owner' }
  yield { name: 'a request with somebody to give it to', address: () => firstRequest(app), who: 'owner' }

  yield* dayChoiceStates(app, id)
  await app.db
    .updateTable('business')
    .set({ day_choice: 'day', half_days: false, near_discount: null })
    .execute()
  await sellOut(owner)
  yield homeowner('the form with a material sold out', `/?${new URLSearchParams(BEDS)}&postcode=78701`)
  await closeDays(app)
  const quoted = placesOf(app, id)['/b/:token']![0]!
  yield { name: 'a booking link without a day', address: quoted, who: 'homeowner' }
}

/** Somebody who helps, so that requests may be given to her. Gives the number of her account. */
async function addHelper({ db, deps }: TestApp): Promise<number> {
  const made_at = deps.now().toString()
  const helper = {
    name: 'Ida Fern',
    email: 'ida@fernbeds.example',
    password_hash: '',
    role: 'helper',
  } as const
  const { id } = await db
    .insertInto('account')
    .values({ ...helper, made_at })
    .returning('id')
    .executeTakeFirstOrThrow()
  return id
}

async function firstRequest({ db }: TestApp): Promise<string> {
  const { number } = await db
    .selectFrom('quote_request')
    .select('number')
    .orderBy('id')
    .executeTakeFirstOrThrow()
  return `/queue/${number}`
}

async function sellOut(owner: Browser): Promise<void> {
  const page = '/rates/today/compost'
  const form = formsOf((await owner.get(page)).text, page).find(one => one.address === page)!
  const fields = {
    ...Object.fromEntries(form.controls.map(({ name, value }) => [name, value])),
    soldOut: 'yes',
  }
  const { status } = await owner.post(page).type('form').send(fields)
  if (status !== 303) throw new Error(`Selling out answered ${status}`)
}

async function closeDays({ deps, db }: TestApp): Promise<void> {
  const business = await requireBusiness(db)
  const first = deps.now().toZonedDateTimeISO(business.time_zone).toPlainDate()
  for (let days = 0; days < 60; days += 1)
    await setRoom(deps, business, first.add({ days }).toString(), '0').catch(() => {})
}
