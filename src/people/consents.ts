import type { Kysely } from 'kysely'
import type { Way } from '../db/schema/letters.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { recordConsent, setQuiet, withdrawConsent } from '../places/consent.ts'

const MOST_SHOWN = 20

/** What somebody told the staff of offers: one way, yes or no, in their words. */
export interface Spoken {
  way: Way
  given: boolean
  words: string
}

export function readSpoken(fields: FormFields): FormReading<Spoken> {
  const way = fields.choice('way', ['mail', 'text'], 'Pick one.') ?? 'mail'
  const given = fields.choice('given', ['yes', 'no'], 'Pick one.') === 'yes'
  const words = fields.line('said', {
    most: 300,
    missing: 'Write down what they said, and where you heard it.',
    tooLong: 'That’s longer than 300 characters.',
  })
  return fields.reading({ way, given, words })
}

/** Writes down what a customer said of offers, for all of their group who are reached that way. */
export async function noteSpoken(
  deps: Deps,
  accountId: number,
  headId: number,
  spoken: Spoken,
): Promise<void> {
  const { way, given, words } = spoken
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    const doer = { kind: 'staff', accountId } as const
    const rows = await trx
      .selectFrom('customer')
      .select(['id', 'email', 'phone'])
      .where('head_id', '=', headId)
      .orderBy('id')
      .execute()
    const reached = rows.filter(row => (way === 'mail' ? row.email : row.phone) !== '').map(({ id }) => id)
    if (given) await recordConsent(trx, reached, way, { given, at, doer, words })
    else for (const id of reached) await withdrawConsent(trx, id, way, { at, doer, words })
  })
}

/** Leaves a customer in peace but for booked work, or not any more; a repeat changes nothing. */
export async function noteQuiet(deps: Deps, headId: number, quiet: boolean): Promise<void> {
  await deps.db.transaction().execute(trx => setQuiet(trx, headId, quiet ? deps.now() : null))
}

/** What was said of offers by a customer's group, newest first, in words for the staff. */
export async function viewConsents(db: Kysely<Database>, headId: number, timeZone: string) {
  const rows = await db
    .selectFrom('consent')
    .innerJoin('customer', 'customer.id', 'consent.customer_id')
    .leftJoin('account', 'account.id', 'consent.account_id')
    .select(['consent.way', 'consent.given', 'consent.at', 'consent.words', 'consent.by_kind'])
    .select('account.name as by')
    .where('customer.head_id', '=', headId)
    .orderBy('consent.id', 'desc')
    .limit(MOST_SHOWN)
    .execute()
  return rows.map(({ way, given, at, words, by }) => ({
    words,
    what: `${given ? 'Offers agreed to' : 'No more offers'} by ${way === 'mail' ? 'email' : 'text'}${by ? `, noted by ${by}` : ''}`,
    when: momentInWords(at, timeZone, 'en'),
  }))
}
