import { type Kysely, sql } from 'kysely'
import type { PackOf } from '../db/schema/goods.ts'
import type { Database } from '../db/schema.ts'
import { isUniqueViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { type PackNamed, packsListed } from '../on-hand/pack-words.ts'

/** Business days before the work that something is ordered where no supplier says otherwise: common practice, no source. */
export const USUAL_LEAD = 2

/** A supplier as the owner tells it: `keeps` where what is picked up is ordered ahead too; sells names packs as `soldAs` does. */
export interface SupplierTold {
  name: string
  phone: string
  cutoff: string
  hours: string
  leadDays: number
  keeps: boolean
  sells: string[]
}

export interface Supplier extends SupplierTold {
  id: number
}

/** What of a pack stands in what a supplier sells: 'finish shredded-wood bulk', and without a pack where none is listed. */
export function soldAs({ of, slug, pack }: { of: PackOf; slug: string; pack: string }): string {
  return [of, slug, pack].filter(Boolean).join(' ')
}

/** Everything that can be ordered: every pack, and the materials of which none is listed. */
export function orderable(table: RateTable): PackNamed[] {
  const without = table.finishes.filter(({ packs }) => packs.length === 0)
  return [...packsListed(table), ...without.map(({ slug }) => ({ of: 'finish', slug, pack: '' }) as const)]
}

/** The suppliers that stand, by name. */
export async function findSuppliers(db: Kysely<Database>): Promise<Supplier[]> {
  const rows = await db
    .selectFrom('supplier')
    .select(['id', 'name', 'phone', 'cutoff', 'hours', 'lead_days as leadDays', 'keeps', 'sells'])
    .where('removed_at', 'is', null)
    .orderBy(sql`lower(name)`)
    .orderBy('id')
    .execute()
  return rows
}

/**
 * Keeps a supplier, a new one without an id.
 * @throws {Conflict} when another one has the name
 * @throws {NotFound} when there is no such supplier
 */
export async function saveSupplier(
  deps: Deps,
  accountId: number,
  id: number | null,
  { name, phone, cutoff, hours, leadDays, keeps, sells }: SupplierTold,
): Promise<void> {
  const saved = { saved_at: deps.now().toString(), saved_by: accountId }
  const row = { name, phone, cutoff, hours, lead_days: leadDays, keeps, sells, ...saved }
  try {
    if (id === null) await deps.db.insertInto('supplier').values(row).execute()
    else {
      const { numUpdatedRows } = await deps.db
        .updateTable('supplier')
        .set(row)
        .where('id', '=', id)
        .where('removed_at', 'is', null)
        .executeTakeFirstOrThrow()
      if (numUpdatedRows === 0n) throw new NotFound()
    }
  } catch (error) {
    if (isUniqueViolation(error, 'supplier_once')) throw new Conflict('orders.name-taken', { name })
    throw error
  }
}

/** Takes a supplier out of the list; its orders stay. A repeat changes nothing. */
export async function removeSupplier(deps: Deps, id: number): Promise<void> {
  await deps.db
    .updateTable('supplier')
    .set({ removed_at: deps.now().toString() })
    .where('id', '=', id)
    .where('removed_at', 'is', null)
    .execute()
}
