import type { Told } from '../estimate/job/bed.ts'
import type { Finish, RateTable } from '../estimate/table/rate-table.ts'
import { substitutesOf } from '../estimate/table/substitutes.ts'

/** Which finishes of these beds are sold out at present, and what can be laid instead, the closest first. */
export function soldOutWarnings({ beds }: Told, table: RateTable): string[] {
  const wanted = new Set(beds.map(({ finish }) => finish))
  return table.finishes
    .filter(({ slug, soldOut }) => soldOut && wanted.has(slug))
    .map(finish => `Sold out right now: ${finish.name.en}${insteadOf(finish, table)}.`)
}

function insteadOf(finish: Finish, table: RateTable): string {
  const names = substitutesOf(finish, table).map(({ name, soldOut }) =>
    soldOut ? `${name.en} (sold out too)` : name.en,
  )
  return names.length > 0 ? `. Substitutes, closest first: ${names.join(', ')}` : '. It has no substitute'
}
