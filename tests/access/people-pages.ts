import { keepFile, takeIn } from '../../src/moving-in/moving-in.ts'
import { findPapers, insertFile, upsertPaper } from '../../src/papers/queries.ts'
import { decideCustomers, decidePlaces } from '../../src/people/same.ts'
import { saveFirm } from '../../src/places/firms.ts'
import { eraseCustomer } from '../../src/privacy/erase.ts'
import { sendQuoteRequest } from '../../src/requests/quote-request.ts'
import type { TestApp } from '../helpers/app.ts'
import { paidByCheck } from '../helpers/bills.ts'
import { provedNow } from '../helpers/people.ts'
import { sending, sendRequest } from '../helpers/requests.ts'

/** The page of a customer who may be the same as others; or where one of those was joined, and another is kept apart. */
export async function customersPage(request: () => Promise<{ id: number }>, app: TestApp, decided?: 'apart') {
  const [first, second, third] = [
    await peopleOf(app, request),
    await peopleOf(app, request),
    await peopleOf(app, request),
  ]
  if (decided) {
    await decideCustomers(
      app.deps,
      { one: second.customer_id, other: first.customer_id, accountId: 1 },
      'same',
    )
    await decideCustomers(
      app.deps,
      { one: third.customer_id, other: first.customer_id, accountId: 1 },
      decided,
    )
  }
  return `/customers/${first.customer_id}`
}

/** Of a request without beds: by somebody who may be somebody else, and by one who is known. */
export async function putInPage(app: TestApp, decision?: 'same') {
  const doer = { kind: 'staff', accountId: 1 } as const
  const before = await sendRequest(app)
  const { id, number } = await sendQuoteRequest(
    app.deps,
    sending({ told: { beds: [], extras: [], postcode: '' } }),
    undefined,
    doer,
  )
  if (decision) {
    const [one, other] = [await peopleOf(app, async () => ({ id })), await peopleOf(app, async () => before)]
    await decideCustomers(
      app.deps,
      { one: one.customer_id, other: other.customer_id, accountId: 1 },
      decision,
    )
  }
  return `/put-in/${number}`
}

/** Of somebody who can be erased, who has work booked or the like, or who is erased. */
export async function erasePage(
  app: TestApp,
  request: 'erased' | (() => Promise<{ id: number }>) = () => sendRequest(app),
) {
  const isErased = request === 'erased'
  await provedNow(app)
  const erased = () => paidByCheck(app, { name: 'Zephyrine Quill', phone: '(512) 555-0171', email: '' })
  const { customer_id } = await peopleOf(app, isErased ? erased : request)
  if (isErased) await eraseCustomer(app.deps, 1, customer_id)
  return `/customers/${customer_id}/erase`
}

/** Of a property of which there is another spelling, joined. */
export async function placesPage(request: () => Promise<{ id: number }>, app: TestApp) {
  const [first, second] = [await peopleOf(app, request), await peopleOf(app, request)]
  await decidePlaces(app.deps, { one: second.place_id, other: first.place_id, accountId: 1 }, true)
  return `/places/${first.place_id}`
}

async function peopleOf({ db }: TestApp, request: () => Promise<{ id: number }>) {
  const { id } = await request()
  return db
    .selectFrom('quote_request')
    .select(['customer_id', 'place_id'])
    .where('id', '=', id)
    .executeTakeFirstOrThrow()
}

let files = 0

/** Of a file that waits, 'faulty' or 'good'; or of one that is 'in'. */
export async function filePage({ deps }: TestApp, ownerId: number, state: string) {
  files += 1
  const text = `Name,Phone,Address,Beds\nCleo ${files},555 010 0199,12 Fern Lane,20 by 5\n${state === 'faulty' ? ',1,,huge\n' : ''}`
  const kept = await keepFile(deps, ownerId, { name: 'people.csv', text })
  if (!kept.ok) throw new Error(kept.fault.message)
  if (state === 'in') await takeIn(deps, ownerId, kept.id)
  return `/customers/file/${kept.id}`
}

/** Has the customer of a request be an association with everything that can be agreed on. */
export async function makeFirm({ db, deps }: TestApp, ownerId: number, requestId: number): Promise<number> {
  const { customer_id } = await db
    .selectFrom('quote_request')
    .select('customer_id')
    .where('id', '=', requestId)
    .executeTakeFirstOrThrow()
  const firm = {
    needs_order: true,
    days_to_pay: 30,
    bill_name: 'Harbor Management',
    bill_email: 'bills@harbor.example',
    bill_address: '1 Pier Street',
    exempt_number: 'TX-7',
    exempt_until: '2026-02-28',
    paper_ids: [await paperOf({ db, deps }, ownerId)],
    rules: 'Tuesdays only.\nBrown mulch.',
  }
  await saveFirm(deps.db, customer_id, firm, { at: deps.now(), by: ownerId })
  return customer_id
}

export async function firmPage(app: TestApp, ownerId: number) {
  return `/customers/${await makeFirm(app, ownerId, (await sendRequest(app)).id)}/firm`
}

/** Keeps a paper. Gives its id. */
export async function paperOf({ db, deps }: Pick<TestApp, 'db' | 'deps'>, ownerId: number): Promise<number> {
  const made = { at: deps.now(), by: ownerId }
  const file = { kind: 'application/pdf', bytes: Buffer.from('%PDF-1.7') } as const
  await db.transaction().execute(async trx => upsertPaper(trx, 'W-9', await insertFile(trx, file, made)))
  return (await findPapers(db))[0]!.id
}
