import { sql, type Transaction } from 'kysely'
import { requireBusiness } from '../../business/queries.ts'
import { json } from '../../db/json.ts'
import type { SentByStranger } from '../../db/schema/junk.ts'
import type { Database } from '../../db/schema.ts'
import { isUniqueViolation } from '../../db/violations.ts'
import type { Deps } from '../../deps.ts'
import type { Verdict } from '../../junk/score.ts'
import { hashSecret, linkToken, newNonce } from '../../lib/tokens.ts'
import { pathOfLink } from '../links.ts'
import { findSubmitted, takeNumber } from '../queries.ts'
import type { Sending, Worked } from '../quote-request.ts'
import { contentHash } from '../sent-before.ts'
import { refuseBeyondMeasure } from '../worked.ts'
import { askWhetherReal, tellOwner } from './ask-whether-real.ts'
import { keepMaybeJunkPhotos } from './photos.ts'
import { SentMeanwhile } from './queries.ts'

/** How many are kept: of more the oldest go, those first that somebody said are junk. */
export const MOST_KEPT = 2_000

/**
 * Holds what somebody sent as maybe junk: as it was sent, in a table of its own, so that nothing that reads requests can meet it. It
 * has a number and a page like any other, but no mail goes out but the one that asks whether it was them. `worked` is its ballpark, null without beds.
 * @throws {SentMeanwhile} when the same was taken in already
 * @throws {Refusal} 422 when its price is beyond all measure
 */
export async function holdAsMaybeJunk(
  deps: Deps,
  sending: Sending,
  worked: Worked | null,
  { points, reasons }: Verdict,
): Promise<{ number: string; ownPath: string; repeated: false }> {
  const { submissionKey: key, photos = [], ...sent } = sending
  const submitted = { key, contentHash: contentHash(sending.told, sending) }
  const now = deps.now()
  const nonce = newNonce()
  if (worked) refuseBeyondMeasure(worked.ballpark)
  try {
    return await deps.db.transaction().execute(async trx => {
      const business = await requireBusiness(trx)
      // From here on whoever takes a request in waits for us.
      const number = await takeNumber(trx, now.toZonedDateTimeISO(business.time_zone).year)
      if (await findSubmitted(trx, key, submitted)) throw new SentMeanwhile()
      const { id } = await trx
        .insertInto('maybe_junk')
        .values({
          number,
          submission_key: key,
          content_hash: submitted.contentHash,
          sending: json<SentByStranger>(sent),
          rate_table_id: worked?.rateTableId ?? null,
          understood: worked && json(worked.understood),
          ballpark: worked && json(worked.ballpark),
          nonce,
          token_hash: hashSecret(linkToken(deps.secretKey, 'own page', nonce)),
          points,
          reasons: json(reasons),
          arrived_at: now.toString(),
        })
        .returning('id')
        .executeTakeFirstOrThrow()
      await keepMaybeJunkPhotos(trx, id, photos, business, now)
      await askWhetherReal(trx, deps, { id, nonce, points, sending }, business.country, now)
      await tellOwner(trx, deps, business.time_zone, now)
      await deleteBeyond(trx, MOST_KEPT)
      return { number, ownPath: pathOfLink(deps.secretKey, 'own page', nonce), repeated: false }
    })
  } catch (error) {
    if (isUniqueViolation(error)) throw new SentMeanwhile()
    throw error
  }
}

/** Deletes what is more than so many: what somebody said is junk first, then the oldest. */
export async function deleteBeyond(trx: Transaction<Database>, most: number): Promise<void> {
  await sql`
    delete from maybe_junk where id in (
      select id from maybe_junk order by (junk_at is not null), id desc offset ${most})`.execute(trx)
}
