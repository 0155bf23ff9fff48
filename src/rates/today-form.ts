import type { Finish, RateTable } from '../estimate/table/rate-table.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { Decimal } from '../lib/decimal.ts'
import type { Today } from './new-price.ts'
import { type PricesGiven, priceInWords, pricesOf } from './pack-prices.ts'

const PRICE_PLACES = 4
const FAR = 2

/**
 * Reads what is said of a finish at the yard: a field for each of its prices, and the tick `soldOut`. A price of more
 * than twice or less than half the last is asked about, until `sure.` and its name says that very price.
 */
export function readToday(
  fields: FormFields,
  finish: Finish,
  { units, currency }: Pick<RateTable, 'units' | 'currency'>,
): FormReading<Today> & { asked: PricesGiven } {
  const prices: PricesGiven = {}
  const asked: PricesGiven = {}
  for (const { name, each } of pricesOf(finish, units)) {
    // What isn’t known may stay so: it may only be sold out.
    if (each === '' && fields.text(name) === '') continue
    const price = fields.figure(name, { places: PRICE_PLACES, missing: 'Give the price.' }) ?? ''
    prices[name] = price
    if (!isFarFrom(price, each) || fields.text(`sure.${name}`) === price) continue
    asked[name] = price
    const [now, was] = [price, each].map(one => priceInWords(one, currency))
    fields.fault(name, `${now}? It was ${was}. Correct it, or check the box if it’s right.`)
  }
  return { ...fields.reading({ prices, soldOut: fields.tick('soldOut') }), asked }
}

function isFarFrom(price: string, last: string): boolean {
  if (price === '' || last === '' || new Decimal(last).isZero()) return false
  return new Decimal(price).gt(new Decimal(last).times(FAR)) || new Decimal(price).times(FAR).lt(last)
}
