import type { Transaction } from 'kysely'
import type { PackOf } from '../db/schema/goods.ts'
import type { Database } from '../db/schema.ts'
import { Decimal } from '../lib/decimal.ts'
import { moveOnHand, type OnHandMove } from '../on-hand/move.ts'
import { lockOnHand } from '../on-hand/queries.ts'
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

/**
 * Takes what a job left over back off on hand, as it is opened again: as much as is still there. Gives what was used
 * already, which stays off.
 */
export async function takeLeftOverBack(
  trx: Transaction<Database>,
  job: { quoteRequestId: number; version: number },
  made: { at: Temporal.Instant; by: number },
): Promise<{ of: PackOf; slug: string; pack: string; units: string }[]> {
  const brought = (await findBrought(trx, job.quoteRequestId)).filter(
    ({ units }) => !new Decimal(units).isZero(),
  )
  const used = []
  for (const { of, slug, pack, units } of brought.sort((a, b) => (nameOf(a) < nameOf(b) ? -1 : 1))) {
    const there = (await lockOnHand(trx, { of, slug, pack, spot: '' })).units
    const back = Decimal.min(units, there)
    const key = `job ${job.quoteRequestId} ${job.version} ${nameOf({ of, slug, pack })}`
    const named = {
      of,
      slug,
      pack,
      spot: '',
      key,
      kind: 'leftover',
      units: back.negated().toFixed(3),
    } as const
    await moveOnHand(trx, [{ ...named, quoteRequestId: job.quoteRequestId }], made)
    const gone = new Decimal(units).minus(back)
    if (gone.gt(0)) used.push({ of, slug, pack, units: gone.toFixed(3) })
  }
  return used
}

function nameOf({ of, slug, pack }: { of: PackOf; slug: string; pack: string }): string {
  return [of, slug, pack].join(' ')
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
