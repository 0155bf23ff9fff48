import { moveOnHand, type OnHandMove } from '../../src/on-hand/move.ts'
import { findRateTable } from '../../src/rates/queries.ts'
import { bag, bulk } from '../estimate/packs/made.ts'
import type { TestApp } from './app.ts'
import { putInForce } from './rate-tables.ts'

/** Has the rates list bags and a heap of shredded wood, where they list none. */
export async function listPacks(app: TestApp): Promise<void> {
  const { body } = (await findRateTable(app.db, app.deps.now()))!
  const isListed = body.finishes.some(({ slug, packs }) => slug === 'shredded-wood' && packs.length > 0)
  if (isListed) return
  const packs = [bag({ name: { en: '2 ft³ bag', es: 'bolsa de 2 ft³' } }), bulk()]
  await putInForce(app, table => ({
    ...table,
    finishes: table.finishes.map(finish => (finish.slug === 'shredded-wood' ? { ...finish, packs } : finish)),
  }))
}

/** A move of bags of shredded wood at the yard, unless told otherwise. */
export function bags(units: string, instead: Partial<OnHandMove> = {}): OnHandMove {
  const pack = { of: 'finish', slug: 'shredded-wood', pack: 'bag', spot: '' } as const
  return { ...pack, kind: 'leftover', key: `bags ${units}`, units, ...instead }
}

export function move(app: TestApp, ...moves: OnHandMove[]): Promise<void> {
  const made = { at: app.deps.now(), by: 1 }
  return app.db.transaction().execute(trx => moveOnHand(trx, moves, made))
}

/** Seven bags at the yard, of those that the rates list. Gives the id of what is on hand. */
export async function someOnHand(app: TestApp): Promise<number> {
  await listPacks(app)
  await move(app, bags('7', { key: 'seven bags' }))
  const { id } = await app.db.selectFrom('on_hand').select('id').executeTakeFirstOrThrow()
  return id
}
