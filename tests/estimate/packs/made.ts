import { buyTogether } from '../../../src/estimate/packs/buy-together.ts'
import type { Offer } from '../../../src/estimate/packs/offers.ts'
import type { Bag, Bale, Bulk, Pack, Piece, Roll, Weighed } from '../../../src/estimate/table/pack.ts'
import type { Extra, Finish, RateTable } from '../../../src/estimate/table/rate-table.ts'
import { Decimal } from '../../../src/lib/decimal.ts'
import { testTable } from '../jobs.ts'

const called = (slug: string) => ({ slug, name: { en: slug, es: slug } })
const plain = { least: '0', step: '1', collected: true, delivered: null }

/** A price that holds for any number of units. */
export const flat = (each: string) => [{ from: '0', each }]

/** Prices and contents of the packs below are invented. */
export function bag(changes: Partial<Bag> = {}): Bag {
  return {
    ...called('bag'),
    ...plain,
    prices: flat('4'),
    kind: 'bag',
    holds: '2',
    weightWet: null,
    ...changes,
  }
}

export function bale(changes: Partial<Bale> = {}): Bale {
  return {
    ...called('bale'),
    ...plain,
    prices: flat('6'),
    kind: 'bale',
    covers: '20',
    deep: '3',
    weightWet: null,
    ...changes,
  }
}

export function bulk(changes: Partial<Bulk> = {}): Bulk {
  return { ...called('bulk'), ...plain, prices: flat('32'), step: '0.5', kind: 'bulk', ...changes }
}

export function weighed(changes: Partial<Weighed> = {}): Weighed {
  return { ...called('ton'), ...plain, prices: flat('40'), kind: 'weighed', density: '2600', ...changes }
}

export function roll(changes: Partial<Roll> = {}): Roll {
  const sizes = { width: '3', length: '50', overlap: '0.5', strips: false }
  return { ...called('roll'), ...plain, prices: flat('25'), kind: 'roll', ...sizes, ...changes }
}

export function piece(changes: Partial<Piece> = {}): Piece {
  const sizes = { length: '20', stakes: '5', stakeEach: '0.80' }
  return { ...called('piece'), ...plain, prices: flat('18'), kind: 'piece', ...sizes, ...changes }
}

/** A table whose first finish is bought in these ways; no allowance, so that a need is the volume in place. */
export function tableWith(
  packs: Pack[],
  changes: Partial<RateTable> = {},
  finish: Partial<Finish> = {},
): RateTable {
  const table = testTable({ allowance: '0' })
  const [first, ...rest] = table.finishes
  return { ...table, finishes: [{ ...first!, packs, ...finish }, ...rest], ...changes }
}

/** What is bought for a need in yd³ by the table's first finish. */
export function buying(need: string | number | Decimal, table: RateTable) {
  const [finish] = table.finishes
  return buyTogether([{ finish: finish!, need: new Decimal(need) }], table).finishes[0]!.buying!
}

/** An offer in words: 'bag:collected 14 units, 56.00 + 0.00 + 0.00 tax, 1 trips'. */
export function told({ parts, material, delivery, purchaseTax, trips }: Offer): string {
  const money = [material, delivery, purchaseTax].map(amount => amount.toFixed(2))
  const ways = parts.map(({ way, units }) => `${way?.key} ${units} units`).join(' and ')
  return `${ways}, ${money[0]} + ${money[1]} + ${money[2]} tax, ${trips} trips`
}

/** An extra for every bed, at no price and no hours until more is said. */
export function extraOf(changes: Partial<Extra>): Extra {
  return {
    ...called('extra'),
    per: 'area',
    pricedBy: 'rate',
    materialCost: null,
    waste: '0',
    lower: '0',
    upper: '0',
    group: null,
    offered: true,
    laborHours: { lower: '0', upper: '0' },
    packs: [],
    pinned: null,
    fluffing: '1',
    dumpFee: '0',
    taxed: 'usual',
    materialShare: null,
    cautions: [],
    ...changes,
  }
}
