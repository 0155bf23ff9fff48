import { randomUUID } from 'node:crypto'
import { bookDay } from '../../src/bookings/booking.ts'
import { saySoldOut } from '../../src/loads/get.ts'
import { noteMiles } from '../../src/loads/miles.ts'
import { insertGot, upsertThings } from '../../src/loads/queries.ts'
import { setThing } from '../../src/loads/set-thing.ts'
import type { TestApp } from './app.ts'
import { acceptedRequest } from './bookings.ts'
import { listPacks } from './on-hand.ts'
import type { Browser } from './people.ts'
import { putInForce } from './rate-tables.ts'
import { bedTold, told } from './requests.ts'

/** Has the rates list packs of shredded wood, a truck, and no allowance, so that a need is the volume in place. */
export async function readyToLoad(app: TestApp): Promise<void> {
  await listPacks(app)
  const pickup = { name: { en: 'Pickup', es: 'Camioneta' }, volume: '2.5', payload: '1500' }
  await putInForce(app, table => ({ ...table, allowance: '0', carriers: [pickup] }))
}

/** A booked job of one bed of shredded wood, as long and wide as this in feet, 3 in deep. */
export async function bookedBed(app: TestApp, day: string, length: string, width: string) {
  const sizes = { length: `${length} ft`, width: `${width} ft` }
  const accepted = await acceptedRequest(app, '1', { told: told(bedTold({ sizes })) })
  await bookDay(app.deps, accepted.id, day)
  return accepted
}

/** A day's load list with a job of which some is got and a thing to take along, some of it on the truck. */
export async function loadPage(app: TestApp, state = ''): Promise<string> {
  const day = state ? '2026-04-22' : '2026-04-21'
  const { id } = await bookedBed(app, day, '12', '12')
  const { id: ownerId } = await app.db
    .selectFrom('account')
    .select('id')
    .where('role', '=', 'owner')
    .executeTakeFirstOrThrow()
  const at = app.deps.now()
  await app.db.transaction().execute(trx => upsertThings(trx, 'always', '', 'Tarps / Lonas\nRakes'))
  await setThing(app.deps, ownerId, { day, thing: 'Rakes', isOn: true })
  const got = {
    key: randomUUID(),
    day,
    of: 'finish',
    slug: 'shredded-wood',
    pack: '',
    delivered: false,
  } as const
  const rest = {
    units: '0.5',
    contents: '1',
    paid: '20.00',
    bought_at: 'Smith’s yard',
    ticket: null,
    on_hand_id: null,
  }
  const made = { made_at: at.toString(), made_by: ownerId }
  await app.db
    .transaction()
    .execute(trx => insertGot(trx, { ...got, ...rest, ...made }, [{ jobId: id, units: '0.5' }]))
  if (state) await saySoldOut(app.deps, ownerId, day, { of: 'finish', slug: 'shredded-wood' })
  return `/loads/${day}`
}

/** Some miles on a day, by odometer. */
export function someMiles(app: TestApp, day: string): Promise<void> {
  const odometer = { odometer_out: '48210.0', odometer_back: '48244.5', distance: '34.5' }
  const driven = { key: randomUUID(), day, vehicle: 'The truck', unit: 'mi' as const, words: '', ...odometer }
  return noteMiles(app.deps, 1, driven)
}

/** What the form of a line of a load list sends, the nth of the page. */
export async function lineForm(browser: Browser, day: string, nth = 0): Promise<Record<string, string>> {
  const { text } = await browser.get(`/loads/${day}`)
  const form = text.split('<form class="loads-form"')[nth + 1]?.split('</form>')[0]
  if (!form) throw new Error(`The load list of ${day} has no line ${nth}`)
  const hidden = [...form.matchAll(/<input type="hidden" name="(\w+)" value="([^"]*)">/g)]
  const units = /name="(line\.\d+\.units)"[^>]* value="([^"]*)"/.exec(form)
  return Object.fromEntries([...hidden, ...(units ? [units] : [])].map(([, name, value]) => [name, value]))
}

/** Ticks a line, as planned unless told otherwise. */
export async function tick(browser: Browser, day: string, instead: Record<string, string> = {}, nth = 0) {
  const form = { ...(await lineForm(browser, day, nth)), ...instead }
  return browser.post(`/loads/${day}/got`).type('form').send(form)
}
