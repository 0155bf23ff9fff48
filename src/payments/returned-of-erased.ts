import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { findPayments, findSettled, insertPayment } from './queries.ts'
import { oppositeOf } from './receive.ts'

/** A check that may come back still; of whom, nobody knows any more. */
export interface OpenCheck {
  id: number
  number: string
  amount: string
  day: string
}

/** The checks of erased requests, whose papers are kept, that nothing undid. */
export async function findChecksOfErased(db: Kysely<Database>, requests: number[]): Promise<OpenCheck[]> {
  const { rows } = await sql<OpenCheck>`
    select payment.id, number, amount, day from payment join quote_request on quote_request.id = quote_request_id
    where quote_request_id = any(${requests}::bigint[]) and erased_at is not null and papers_erased_at is null
      and way = 'check' and kind <> 'refund' and undoes is null
      and not exists (select 1 from payment undoing where undoing.undoes = payment.id)
      and not exists (select 1 from deposit_settled where deposit_settled.quote_request_id = quote_request.id)
    order by number, payment.nth`.execute(db)
  return rows
}

/**
 * Undoes a check that came back after its person was erased. There is nobody to tell or to charge a fee, and the request stays as it was; the accountant's
 * books have it. A repeat changes nothing.
 * @throws {NotFound} when nobody erased paid by it
 * @throws {Conflict} when it is no check that was received, or what is held was settled
 */
export async function returnCheckOfErased(
  deps: Deps,
  accountId: number,
  { paymentId, day }: { paymentId: number; day: string },
): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const request = await trx
      .selectFrom('quote_request')
      .select('id')
      .where('id', '=', eb => eb.selectFrom('payment').select('quote_request_id').where('id', '=', paymentId))
      .where('erased_at', 'is not', null)
      .where('papers_erased_at', 'is', null)
      .forUpdate()
      .executeTakeFirst()
    if (!request) throw new NotFound()
    const before = await findPayments(trx, request.id)
    const check = before.find(({ id, undoes }) => id === paymentId && undoes === null)
    if (check?.is_returned) return
    const isCheck = check && check.way === 'check' && check.kind !== 'refund' && check.undone_by === null
    if (!isCheck || (await findSettled(trx, request.id))) throw new Conflict('bill.not-a-check')
    await insertPayment(trx, {
      quote_request_id: request.id,
      ...{ nth: before.length + 1, kind: check.kind, day, way: 'check', undoes: check.id, returned: true },
      ...oppositeOf(check),
      ...{ made_at: deps.now().toString(), made_by: accountId },
    })
  })
}
