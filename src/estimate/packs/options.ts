import type { Choice } from './found.ts'
import { leanestOf, type TripCost } from './leanest.ts'

/**
 * The purchases of a finish of which one is best, whatever rides along. `rising` has them from the cheapest goods up; saved
 * is how much dearer ones save of each limit at most. figures are those of `rising` in a row: goods, load and uses of each;
 * leanest says which of them may be best where trips needn't be whole.
 */
export interface Options {
  choices: Choice[]
  cheapest: Choice
  rising: Choice[]
  saved: Float64Array
  figures: Float64Array
  leanest: Uint16Array
}

/** What may be bought, where a trip costs between so much and so much. */
export function optionsOf(choices: Choice[], tripCost: TripCost): Options {
  const rising = choices.length === 1 ? choices : [...choices].sort((a, b) => a.goods - b.goods)
  const [cheapest] = rising as [Choice]
  const saved = cheapest.uses.map((use, limit) =>
    rising.reduce((most, { uses }) => Math.max(most, use - uses[limit]!), 0),
  )
  const figures = Float64Array.from(rising.flatMap(({ goods, load, uses }) => [goods, load, ...uses]))
  const leanest = leanestOf(figures, cheapest.uses.length + 2, tripCost)
  return { choices, cheapest, rising, saved, figures, leanest }
}
