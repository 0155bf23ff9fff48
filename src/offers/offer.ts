import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { NotFound } from '../http/errors.ts'
import { dayOf } from '../lib/dates.ts'
import { putInOutbox } from '../outbox/outbox.ts'
import { renewLink } from '../requests/links.ts'
import { findPastCustomers, findRecipients } from './queries.ts'

const ANOTHER_YEAR = { hours: 24 * 365 }

/** The owner's own words of an offer, or '', and whom it is for. */
export interface OfferWanted {
  wordsEn: string
  wordsEs: string
  customerIds: number[]
}

/** Keeps an offer to be looked at before it goes out; whoever isn't a past customer with consent is left out. Gives its id. */
export async function makeOffer(deps: Deps, accountId: number, wanted: OfferWanted): Promise<number> {
  return deps.db.transaction().execute(async trx => {
    const now = deps.now()
    const { time_zone } = await requireBusiness(trx)
    const chosen = (await findPastCustomers(trx, dayOf(now, time_zone))).filter(({ customer_id }) =>
      wanted.customerIds.includes(customer_id),
    )
    const { id } = await trx
      .insertInto('offer')
      .values({
        words_en: wanted.wordsEn,
        words_es: wanted.wordsEs,
        made_at: now.toString(),
        made_by: accountId,
        sent_at: null,
      })
      .returning('id')
      .executeTakeFirstOrThrow()
    const rows = chosen.map(({ customer_id, quote_request_id, way }) => ({
      offer_id: id,
      customer_id,
      quote_request_id,
      way,
    }))
    if (rows.length > 0) await trx.insertInto('offer_recipient').values(rows).execute()
    return id
  })
}

/**
 * Puts an offer into the outbox for everybody chosen, once; sent again it does nothing. Gives how many get it now.
 * @throws {NotFound} when there is none
 */
export async function sendOffer(deps: Deps, id: number): Promise<number> {
  return deps.db.transaction().execute(async trx => {
    const offer = await trx
      .selectFrom('offer')
      .selectAll()
      .where('id', '=', id)
      .forUpdate()
      .executeTakeFirst()
    if (!offer) throw new NotFound()
    if (offer.sent_at) return 0
    const at = deps.now()
    const recipients = await findRecipients(trx, id)
    for (const { customer_id, quote_request_id, way } of recipients) {
      // Next spring's mail leads to last year's page.
      await renewLink(trx, 'own page', quote_request_id, at.add(ANOTHER_YEAR))
      const putting = { way, once: `offer ${id} ${customer_id}`, offerId: id }
      await putInOutbox(trx, deps.jobs, 'offer', 'homeowner', quote_request_id, at, putting)
    }
    await trx.updateTable('offer').set({ sent_at: at.toString() }).where('id', '=', id).execute()
    return recipients.length
  })
}
