import type { Transaction } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import { json } from '../db/json.ts'
import type { SentByStranger } from '../db/schema/junk.ts'
import type { Database } from '../db/schema.ts'
import type { JobUnderstood } from '../estimate/understood/format.ts'
import { t } from '../language/catalogue.ts'
import { keepToldBeds } from '../places/beds.ts'
import { recordConsent } from '../places/consent.ts'
import { insertCustomer, insertPlace } from '../places/queries.ts'
import { keepStops } from '../places/stops.ts'
import type { Doer } from './history.ts'
import { insertQuoteRequest } from './queries.ts'

/** A request as it is to stand: what was sent, its number, and by what a repeat of it is known. */
export interface Standing {
  sending: SentByStranger
  understood: JobUnderstood | null
  number: string
  submissionKey: string
  contentHash: string
}

/** Puts a request in as new with its customer, place and beds, as of when it came. Gives its id. */
export async function insertRequest(
  trx: Transaction<Database>,
  { sending, understood, number, submissionKey, contentHash }: Standing,
  doer: Doer,
  arrivedAt: Temporal.Instant,
): Promise<number> {
  const { country } = await requireBusiness(trx)
  const customerId = await insertCustomer(trx, sending, country)
  await keepConsent(trx, sending, customerId, arrivedAt)
  const placeId = await insertPlace(trx, customerId, sending, country)
  const told = await keepStops(trx, placeId, sending.told, arrivedAt)
  const putInBy = doer.kind === 'staff' ? 'staff' : 'homeowner'
  const id = await insertQuoteRequest(trx, {
    number,
    stage: 'new',
    stage_at: arrivedAt.toString(),
    customer_id: customerId,
    place_id: placeId,
    submission_key: submissionKey,
    content_hash: contentHash,
    sent_as: sending.sentAs ?? 'beds',
    put_in_by: putInBy,
    language: sending.language,
    preferred_times: sending.preferredTimes,
    note: sending.note,
    told: json(told),
    understood: understood && json(understood),
    measured: null,
    measured_understood: null,
    arrived_at: arrivedAt.toString(),
  })
  await keepToldBeds(trx, { requestId: id, placeId, told, understood }, putInBy, arrivedAt)
  return id
}

/** Of the boxes that were checked, word for word as they stood there. */
async function keepConsent(
  trx: Transaction<Database>,
  { offersMail, offersText, email, phone, language }: SentByStranger,
  customerId: number,
  at: Temporal.Instant,
): Promise<void> {
  const { name: business } = await requireBusiness(trx)
  const given = { given: true, at, doer: { kind: 'homeowner' } } as const
  if (offersMail === 'yes' && email !== '')
    await recordConsent(trx, [customerId], 'mail', {
      ...given,
      words: t(language, 'offers.mail', { business }),
    })
  if (offersText === 'yes' && phone !== '')
    await recordConsent(trx, [customerId], 'text', {
      ...given,
      words: t(language, 'offers.text', { business }),
    })
}
