import type { Job } from './bed.ts'
import type { RateTable } from './rate-table.ts'
import type { Q } from './units.ts'

/** One line of a price: slug names the finish or extra; rate is per unit of the quantity; amount in money. */
export interface PriceLine {
  kind: 'finish' | 'size' | 'extra' | 'travel' | 'minimum'
  slug: string | null
  quantity: Q | null
  rate: string | null
  amount: string
}

/** The price at the middle of every rate; cost and margin (a share of the price) null until every cost is known. */
export interface Price {
  lines: PriceLine[]
  total: string
  crewHours: { task: string; hours: string }[]
  crewHoursTotal: string
  inPlace: Q
  toOrder: { finish: string; volume: Q }[]
  cost: string | null
  margin: string | null
}

export function workOutPrice(_job: Job, _table: RateTable): Price {
  throw new Error('not written yet')
}
