import type { Transaction } from 'kysely'
import type { OnHandMoveKind } from '../db/schema/goods.ts'
import type { Database } from '../db/schema.ts'
import { Conflict } from '../http/errors.ts'
import { Decimal } from '../lib/decimal.ts'
import { findMove, insertMove, lockOnHand, type PackAt } from './queries.ts'

/**
 * Something that comes on hand (units above zero) or goes: in packs, or in yd³|m³ or tons|tonnes of what is loose, to three
 * decimals. `key` says which move it is for good: the same again is taken once.
 */
export interface OnHandMove extends PackAt {
  key: string
  kind: OnHandMoveKind
  units: string
  quoteRequestId?: number | null
  note?: string
}

/**
 * Moves what is on hand, all of it or nothing, within the transaction of whatever moves it. A move whose key was taken
 * already changes nothing.
 * @throws {Conflict} when more is to go than is there, or a key was taken by another move
 */
export async function moveOnHand(
  trx: Transaction<Database>,
  moves: OnHandMove[],
  made: { at: Temporal.Instant; by: number | null },
): Promise<void> {
  // In one order, so that two that move the same packs wait for each other and not for ever; what comes is there for what goes.
  const order = ({ of, slug, pack, spot }: OnHandMove) => [of, slug, pack, spot.toLowerCase()].join('\n')
  const sorted = [...moves].sort((a, b) => {
    const [one, other] = [order(a), order(b)]
    if (one === other) return new Decimal(b.units).comparedTo(a.units)
    return one < other ? -1 : 1
  })
  for (const move of sorted) await moveOne(trx, move, made)
}

async function moveOne(
  trx: Transaction<Database>,
  move: OnHandMove,
  made: { at: Temporal.Instant; by: number | null },
): Promise<void> {
  const units = new Decimal(move.units)
  if (units.isZero()) return
  const row = await lockOnHand(trx, move)
  const known = await findMove(trx, move.key)
  if (known) {
    const isSame = known.on_hand_id === row.id && known.kind === move.kind && units.eq(known.units)
    if (isSame) return
    throw new Conflict('hand.again')
  }
  if (units.plus(row.units).isNeg())
    throw new Conflict('hand.short', { units: new Decimal(row.units).toFixed() })
  await insertMove(trx, {
    key: move.key,
    on_hand_id: row.id,
    kind: move.kind,
    units: units.toFixed(3),
    quote_request_id: move.quoteRequestId ?? null,
    note: move.note ?? '',
    made_at: made.at.toString(),
    made_by: made.by,
  })
}
