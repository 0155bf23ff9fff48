import { layerNamed } from './layer.ts'
import type { Finish, RateTable } from './rate-table.ts'

/** Whether homeowners can pick a finish at present. */
export function canBePicked({ offered, soldOut }: Pick<Finish, 'offered' | 'soldOut'>): boolean {
  return offered && !soldOut
}

/** The finishes of the table that come close to one, the closest first. */
export function substitutesOf(finish: Finish, { finishes }: Pick<RateTable, 'finishes'>): Finish[] {
  return finish.substitutes.flatMap(slug => finishes.find(one => one.slug === slug) ?? [])
}

/** The table without the substitutes and the layers that were taken out of it. */
export function withoutLost(table: RateTable): RateTable {
  const isThere = (slug: string) => table.finishes.some(one => one.slug === slug)
  const finishes = table.finishes.map(one => ({
    ...one,
    substitutes: one.substitutes.filter(isThere),
    layers: one.layers.filter(({ slug }) => layerNamed(slug, table) !== undefined),
  }))
  return { ...table, finishes }
}
