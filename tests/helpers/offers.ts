import { makeOffer, sendOffer } from '../../src/offers/offer.ts'
import { stopPath } from '../../src/offers/stop-link.ts'
import { confirmAddress } from '../../src/requests/confirm-address.ts'
import type { TestApp } from './app.ts'
import { acceptedRequest } from './bookings.ts'

/** Somebody whose beds were done, and who agreed to offers on the form. */
export async function pastCustomer(app: TestApp, instead = {}) {
  const request = await acceptedRequest(app, '0.1', { offersMail: 'yes', offersText: 'yes', ...instead })
  await confirmAddress(app.deps, request.id)
  await app.db.updateTable('quote_request').set({ stage: 'done' }).where('id', '=', request.id).execute()
  const { customer_id } = await app.db
    .selectFrom('quote_request')
    .select('customer_id')
    .where('id', '=', request.id)
    .executeTakeFirstOrThrow()
  return { ...request, customerId: customer_id }
}

/** An offer to one of those, kept to be looked at. Gives its id. */
export async function offerMade(app: TestApp, accountId: number): Promise<number> {
  const { customerId } = await pastCustomer(app)
  await app.db.updateTable('business').set({ postal_address: '1 Fern Way, Austin TX 78701' }).execute()
  const wanted = { wordsEn: 'From $400', wordsEs: 'Desde $400', customerIds: [customerId] }
  return makeOffer(app.deps, accountId, wanted)
}

/** The same sent. Gives the path at which whoever got it stops such mails. */
export async function offerSent(app: TestApp, accountId: number): Promise<string> {
  const id = await offerMade(app, accountId)
  await sendOffer(app.deps, id)
  const row = await app.db
    .selectFrom('outbox')
    .select('id')
    .where('offer_id', '=', id)
    .executeTakeFirstOrThrow()
  return stopPath(app.deps.secretKey, row.id)
}
