import { createHash, randomBytes } from 'node:crypto'
import { setImmediate } from 'node:timers/promises'
import { creditBill, makeBill } from '../../src/billing/make-bill.ts'
import { acceptQuote } from '../../src/bookings/booking.ts'
import { addPhotos } from '../../src/requests/changed-by-homeowner.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { holdPhoto } from '../../src/requests/photos/queries.ts'
import type { TestApp } from '../helpers/app.ts'
import { doneRequest, pay } from '../helpers/bills.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { sendRequest } from '../helpers/requests.ts'

/** Something that was written and acknowledged, as a store names it (see `NAMED`), and when by the clock of the process. */
export interface Written {
  what: string
  began: number
  ended: number
  /** The path of a link that was given out with it. */
  link?: string
}

/** What there is in a store, named as what was written. */
export const NAMED = `
  select 'request ' || number as what from quote_request
  union all select 'quote for ' || number from quote join quote_request r on r.id = quote_request_id
  union all select 'acceptance of ' || number from acceptance join quote on quote.id = quote_id
    join quote_request r on r.id = quote_request_id
  union all select 'photo ' || encode(sha256(picture), 'hex') from request_photo where quote_request_id is not null
  union all select kind || ' ' || number from bill
  union all select 'payment for ' || number from payment join quote_request r on r.id = quote_request_id`

/** Somebody whose requests go further than those of Carol. */
const DAN = { name: 'Dan Reyes', email: 'dan@example.com', phone: '(512) 555-0142' }

/** Writes in every way at once, as much as it is allowed to, until it is stopped. */
export function startWriting(app: TestApp) {
  let stopping = false
  let allowed = 0
  let more = Promise.withResolvers<void>()
  const written: Written[] = []
  const faults: unknown[] = []
  const noting = async <Done>(act: () => Promise<Done>, name: (done: Done) => [string, string?]) => {
    const began = performance.now()
    const done = await act()
    const [what, link] = name(done)
    written.push({ what, began, ended: performance.now(), ...(link && { link }) })
    return done
  }
  const keepOn = async (write: (noting: Noting) => Promise<void>) => {
    while (!stopping) {
      // As a request that comes over the network does: a store in memory leaves no other moment to anything else.
      await setImmediate()
      if (written.length < allowed) await write(noting)
      else await more.promise
    }
  }
  const end = () => {
    stopping = true
    more.resolve()
  }
  const orFault = (error: unknown) => {
    faults.push(error)
    end()
  }
  const writers = [
    ...['a', 'b'].map(name => keepOn(noting => send(app, noting, name))),
    keepOn(noting => acceptWithPhoto(app, noting)),
    keepOn(noting => bill(app, noting)),
  ]
  const ending = Promise.all(writers.map(writer => writer.catch(orFault)))
  return {
    written,
    hasStopped: () => stopping,
    /** So much more than there is by now: whoever writes without a pause holds a backup of the embedded store up for minutes. */
    allow: (count: number) => {
      allowed = written.length + count
      more.resolve()
      more = Promise.withResolvers()
    },
    /** Has them end what they have begun; what went wrong is thrown. */
    stop: async () => {
      end()
      await ending
      if (faults.length > 0) throw faults[0]
    },
  }
}

type Noting = <Done>(act: () => Promise<Done>, name: (done: Done) => [string, string?]) => Promise<Done>

/** A request and its quote; between them two rows that come and go together. */
async function send(app: TestApp, noting: Noting, writer: string) {
  const pair = ['one', 'other'].map(half => `${writer} ${half}`)
  const failed = { failures: 1, last_at: app.deps.now().toString() }
  await app.db
    .insertInto('sign_in_failure')
    .values(pair.map(who_hash => ({ who_hash, ...failed })))
    .execute()
  const { number } = await noting(
    () => sendRequest(app),
    sent => [`request ${sent.number}`, sent.ownPath],
  )
  await app.db.deleteFrom('sign_in_failure').where('who_hash', 'in', pair).execute()
  await noting(
    () => quoteRequest(app, number, { laborHours: '2' }),
    ({ bookingPath }) => [`quote for ${number}`, bookingPath],
  )
}

async function acceptWithPhoto(app: TestApp, noting: Noting) {
  const { deps, db } = app
  const { id, number } = await sendRequest(app, DAN)
  const picture = { jpeg: randomBytes(20_000), width: 40, height: 30 }
  const token = await holdPhoto(db, { picture, small: { ...picture, jpeg: randomBytes(500) } }, deps.now())
  const own = await findLinkPath(db, deps.secretKey, 'own page', id)
  await noting(
    () => addPhotos(deps, id, [{ token, words: 'by the gate' }]),
    () => [`photo ${createHash('sha256').update(picture.jpeg).digest('hex')}`, own],
  )
  const { bookingPath } = await quoteRequest(app, number, { laborHours: '2' })
  await noting(
    () => acceptQuote(deps, id, { revision: 1, typedName: 'Dan Reyes' }),
    () => [`acceptance of ${number}`, bookingPath],
  )
}

/** A bill that is paid, and one that is undone. */
async function bill(app: TestApp, noting: Noting) {
  const make = (id: number) =>
    noting(
      () => makeBill(app.deps, 1, id, { before: 0, added: [], total: null }),
      number => [`bill ${number}`],
    )
  const paid = await doneRequest(app, DAN)
  await make(paid.id)
  await noting(
    () => pay(app, paid.id, '150.00'),
    () => [`payment for ${paid.number}`],
  )
  const wrong = await make((await doneRequest(app, DAN)).id)
  await noting(
    () => creditBill(app.deps, 1, wrong, 'Wrong depth'),
    number => [`credit memo ${number}`],
  )
}
