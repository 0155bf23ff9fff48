import type { Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import { Decimal } from '../lib/decimal.ts'
import { moveOnHand, type OnHandMove } from '../on-hand/move.ts'
import type { PackLeft } from './went.ts'

/**
 * Puts on hand what a job left over, at the yard: what it brought there before counts, so saying it anew moves only the
 * difference.
 * @throws {Conflict} when less was left than said before, and that is used already
 */
export async function keepLeftOver(
  trx: Transaction<Database>,
  job: { quoteRequestId: number; version: number },
  left: readonly PackLeft[],
  made: { at: Temporal.Instant; by: number },
): Promise<void> {
  const wanted = left.filter(({ goes, pack }) => goes === 'on hand' && pack !== '')
  const brought = await findBrought(trx, job.quoteRequestId)
  const nameOf = ({ of, slug, pack }: Pick<PackLeft, 'of' | 'slug' | 'pack'>) => [of, slug, pack].join(' ')
  const all = new Map([...brought, ...wanted].map(one => [nameOf(one), one]))
  const moves = [...all].flatMap(([name, { of, slug, pack }]): OnHandMove[] => {
    const now = wanted.find(one => nameOf(one) === name)?.units ?? '0'
    const before = brought.find(one => nameOf(one) === name)?.units ?? '0'
    const units = new Decimal(now).minus(before)
    if (units.isZero()) return []
    const key = `job ${job.quoteRequestId} ${job.version} ${name}`
    const named = { of, slug, pack, spot: '', key, kind: 'leftover', units: units.toFixed(3) } as const
    return [{ ...named, quoteRequestId: job.quoteRequestId }]
  })
  await moveOnHand(trx, moves, made)
}

async function findBrought(trx: Transaction<Database>, quoteRequestId: number) {
  const rows = await trx
    .selectFrom('on_hand_move')
    .innerJoin('on_hand', 'on_hand.id', 'on_hand_move.on_hand_id')
    .select(['of', 'slug', 'pack'])
    .select(eb => eb.fn.sum<string>('on_hand_move.units').as('units'))
    .where('quote_request_id', '=', quoteRequestId)
    .where('kind', '=', 'leftover')
    .groupBy(['of', 'slug', 'pack'])
    .execute()
  return rows
}
