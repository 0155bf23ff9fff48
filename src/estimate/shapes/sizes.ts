import type { Decimal } from '../../lib/decimal.ts'

/** One size as understood: value and standard error in ft|m, ft²|m² or ft³|m³; about: told as a guess; paced: in paces. */
export interface Size {
  value: Decimal
  spread: Decimal | null
  about: boolean
  paced: boolean
}

/** The sizes a shape is told by, in ft|m, ft²|m² or ft³|m³; of a list, each entry by itself, as 'offsets.0'. */
export type Sizes = Record<string, Decimal>

/** Sizes as told, without how they were told. */
export function valuesOf(sizes: Record<string, Size>): Sizes {
  return Object.fromEntries(Object.entries(sizes).map(([name, size]) => [name, size.value]))
}

/** The entry of a list of sizes: 'offsets.3' is the fourth. */
export function entryOf(list: string, index: number): string {
  return `${list}.${index}`
}

/** A list of sizes in its order. */
export function listOf(sizes: Sizes, list: string): Decimal[] {
  const found: Decimal[] = []
  for (let size = sizes[entryOf(list, 0)]; size; size = sizes[entryOf(list, found.length)]) found.push(size)
  return found
}
