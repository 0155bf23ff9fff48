import type { Kysely } from 'kysely'
import type { Way } from '../db/schema/letters.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import type { FormFields } from '../http/form-fields.ts'
import { isQuiet } from '../outbox/quiet.ts'
import { findConsenting, recordConsent, setQuiet, withdrawConsent } from '../places/consent.ts'
import { recordHistory } from '../requests/history.ts'
import { lockQuoteRequest } from '../requests/stage.ts'

const BY_HOMEOWNER = { kind: 'homeowner' } as const

/** What a homeowner wants to be sent, as the boxes of a form: 'yes' or ''. */
export interface Wishes {
  offersMail: string
  offersText: string
  quiet: string
}

export async function findWishes(db: Kysely<Database>, customerId: number): Promise<Wishes> {
  const agreed = async (way: Way) => ((await findConsenting(db, way, [customerId])).length > 0 ? 'yes' : '')
  const row = await db
    .selectFrom('customer')
    .select(isQuiet.as('is_quiet'))
    .where('id', '=', customerId)
    .executeTakeFirst()
  return {
    offersMail: await agreed('mail'),
    offersText: await agreed('text'),
    quiet: row?.is_quiet ? 'yes' : '',
  }
}

export function readWishes(fields: FormFields): Wishes {
  const yes = (name: keyof Wishes) => (fields.tick(name) ? 'yes' : '')
  return { offersMail: yes('offersMail'), offersText: yes('offersText'), quiet: yes('quiet') }
}

/** Keeps what a homeowner wants to be sent; what is so already is not written again. `words` are those of each box. */
export async function changeWishes(
  deps: Deps,
  { id, customer_id, email, phone }: { id: number; customer_id: number; email: string; phone: string },
  wishes: Wishes,
  words: Record<Way, string>,
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const at = deps.now()
    await lockQuoteRequest(trx, id)
    const before = await findWishes(trx, customer_id)
    const ways = [
      { way: 'mail', wanted: wishes.offersMail, was: before.offersMail, address: email },
      { way: 'text', wanted: wishes.offersText, was: before.offersText, address: phone },
    ] as const
    for (const { way, wanted, was, address } of ways) {
      if (wanted === was || (wanted && address === '')) continue
      const said = { at, doer: BY_HOMEOWNER, words: words[way] }
      if (wanted) await recordConsent(trx, [customer_id], way, { ...said, given: true })
      else await withdrawConsent(trx, customer_id, way, said)
      await recordHistory(trx, id, BY_HOMEOWNER, wanted ? 'offers agreed' : 'offers ended', at)
    }
    if (await setQuiet(trx, customer_id, wishes.quiet ? at : null))
      await recordHistory(trx, id, BY_HOMEOWNER, wishes.quiet ? 'wants quiet' : 'quiet ended', at)
  })
}
