import type { Pack } from '../estimate/table/pack.ts'
import type { Finish, RateTable } from '../estimate/table/rate-table.ts'
import { costedAs } from '../estimate/table/sold.ts'
import { unitSystem } from '../estimate/units/units.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { Decimal } from '../lib/decimal.ts'
import { rateUnitInWords } from './start/rate-words.ts'

/** One price that a finish is bought at. name is its field's; label what is bought; each '' while it isn't known. */
export interface PackPrice {
  name: string
  label: string
  per: string
  each: string
}

/** Prices by the names of their fields. */
export type PricesGiven = Record<string, string>

/** Every price that a finish is bought at, of each pack from each number of units; else what each unit that it is sold in costs, or a yd³|m³. */
export function pricesOf(finish: Finish, units: RateTable['units']): PackPrice[] {
  if (finish.packs.length === 0) {
    const one = rateUnitInWords(costedAs(finish), { units })
    return [{ name: 'materialCost', label: `A ${one}`, per: `per ${one}`, each: finish.materialCost ?? '' }]
  }
  return finish.packs.flatMap(pack =>
    pack.prices.map(({ from, each }, index) => ({
      name: fieldOf(pack, index),
      label: Number(from) === 0 ? pack.name.en : `${pack.name.en}, from ${from} on`,
      per: perUnit(pack, units),
      each,
    })),
  )
}

/** The finish bought at other prices; one that isn't given stays, and '' is not known. */
export function withPrices(finish: Finish, given: PricesGiven): Finish {
  if (finish.packs.length === 0)
    return { ...finish, materialCost: (given.materialCost ?? finish.materialCost) || null }
  return {
    ...finish,
    packs: finish.packs.map(pack => ({
      ...pack,
      prices: pack.prices.map(({ from, each }, index) => ({
        from,
        each: given[fieldOf(pack, index)] ?? each,
      })),
    })),
  }
}

/** Whether two prices are one, however many zeros they end in; '' is not known. */
export function isSamePrice(one: string, other: string): boolean {
  return one === other || (one !== '' && other !== '' && new Decimal(one).eq(other))
}

/** A price as people read it, to the last of its decimals. */
export function priceInWords(each: string, currency: string): string {
  return each === '' ? 'not known' : moneyInWords(each, currency, 'en', { exact: true })
}

/** What a finish is bought at now, a line for each pack: "Bag of 2 ft³: $3.90 each, $3.40 from 40 on". */
export function boughtInWords(finish: Finish, { units, currency }: RateTable): string[] {
  if (finish.packs.length === 0)
    return pricesOf(finish, units).map(({ per, each }) =>
      `${priceInWords(each, currency)} ${each && per}`.trim(),
    )
  return finish.packs.map(pack => {
    const [first, ...further] = pack.prices
    const breaks = further.map(({ from, each }) => `, ${priceInWords(each, currency)} from ${from} on`)
    return `${pack.name.en}: ${priceInWords(first!.each, currency)} ${perUnit(pack, units)}${breaks.join('')}`
  })
}

/** Short for a yard or a meter in bulk. */
function bulkIn(units: RateTable['units']): string {
  return unitSystem(units).bulk === 'yd3' ? 'yd³' : 'm³'
}

function fieldOf(pack: Pack, index: number): string {
  return `prices.${pack.slug}.${index}`
}

function perUnit({ kind }: Pack, units: RateTable['units']): string {
  switch (kind) {
    case 'bag':
    case 'bale':
      return 'each'
    case 'bulk':
      return `per ${bulkIn(units)}`
    case 'weighed':
      return units === 'us' ? 'per short ton' : 'per tonne'
    default:
      return kind satisfies never
  }
}
