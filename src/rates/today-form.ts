import type { Finish, RateTable } from '../estimate/table/rate-table.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { Today } from './new-price.ts'
import { type PricesGiven, pricesOf } from './pack-prices.ts'

const PRICE_PLACES = 4

/** Reads what is said of a finish at the yard: a field for each of its prices, and the tick `soldOut`. */
export function readToday(fields: FormFields, finish: Finish, units: RateTable['units']): FormReading<Today> {
  const prices: PricesGiven = {}
  for (const { name, each } of pricesOf(finish, units)) {
    // What isn’t known may stay so: it may only be sold out.
    if (each === '' && fields.text(name) === '') continue
    prices[name] = fields.figure(name, { places: PRICE_PLACES, missing: 'Give the price.' }) ?? ''
  }
  return fields.reading({ prices, soldOut: fields.tick('soldOut') })
}
