import type { TaxNames } from '../db/schema/bills.ts'
import type { TaxDue } from '../estimate/tax/tax-on.ts'
import { cents, Decimal, sumOf, zero } from '../lib/decimal.ts'

/** A bill, or below zero a credit memo, as far as its tax goes. */
export interface TaxedBill {
  request: number
  day: string
  kind: 'bill' | 'credit memo'
  area: string
  total: string
  tax: TaxDue | null
  names: TaxNames
}

/** Money for bills as it came in, or below zero went back. */
export interface PaidOn {
  request: number
  day: string
  amount: string
}

/** A tax at a rate in an area: what was billed that it is on, and of it what was billed and what came in. */
export interface TaxRow {
  name: string
  rate: string
  area: string
  taxed: string
  billed: string
  received: string
}

interface Span {
  from: string
  to: string
}

interface Part {
  key: string
  name: string
  rate: string
  area: string
  request: number
  day: string
  taxed: Decimal
  amount: Decimal
}

/**
 * Tax by name, rate and area over a period. Billed is by the day of the bill. Received is the same share of a bill's tax as
 * was paid of the bill by then, never more than all: so periods one after another add up.
 */
export function taxByRate(bills: readonly TaxedBill[], paid: readonly PaidOn[], span: Span): TaxRow[] {
  const parts = bills.flatMap(partsOf)
  const before = dayBefore(span.from)
  const rows = new Map<string, { part: Part; taxed: Decimal[]; billed: Decimal[]; received: Decimal[] }>()
  const rowOf = (part: Part) => {
    const row = rows.get(part.key) ?? { part, taxed: [], billed: [], received: [] }
    rows.set(part.key, row)
    return row
  }
  for (const part of parts.filter(({ day }) => day >= span.from && day <= span.to)) {
    const row = rowOf(part)
    row.taxed.push(part.taxed)
    row.billed.push(part.amount)
  }
  const requests = Map.groupBy(parts, ({ request }) => request)
  for (const [request, own] of requests) {
    const of = { bills: bills.filter(bill => bill.request === request), parts: own }
    const money = paid.filter(one => one.request === request)
    for (const key of new Set(own.map(part => part.key))) {
      const came = receivedBy(span.to, key, of, money).minus(receivedBy(before, key, of, money))
      if (!came.isZero()) rowOf(own.find(part => part.key === key)!).received.push(came)
    }
  }
  return [...rows.values()]
    .map(({ part, taxed, billed, received }) => ({
      ...{ name: part.name, rate: part.rate, area: part.area },
      ...{ taxed: cents(sumOf(taxed)), billed: cents(sumOf(billed)), received: cents(sumOf(received)) },
    }))
    .sort((a, b) => compare([a.name, a.area, a.rate], [b.name, b.area, b.rate]))
}

function partsOf({ request, day, kind, area, tax, names }: TaxedBill): Part[] {
  if (!tax) return []
  const sign = kind === 'bill' ? 1 : -1
  const part = (name: string, { rate, amount }: { rate: string; amount: string }): Part => ({
    ...{ key: JSON.stringify([name, rate, area]), name, rate, area, request, day },
    taxed: new Decimal(tax.taxed).times(sign),
    amount: new Decimal(amount).times(sign),
  })
  const second = tax.second && names.second ? [part(names.second.en, tax.second)] : []
  return [part(names.first.en, tax), ...second]
}

function receivedBy(
  day: string,
  key: string,
  { bills, parts }: { bills: readonly TaxedBill[]; parts: readonly Part[] },
  paid: readonly PaidOn[],
): Decimal {
  const billed = sumOf(bills.filter(bill => bill.day <= day).map(({ total }) => new Decimal(total)))
  if (!billed.gt(0)) return zero
  const came = sumOf(paid.filter(one => one.day <= day).map(({ amount }) => new Decimal(amount)))
  const tax = sumOf(parts.filter(part => part.key === key && part.day <= day).map(({ amount }) => amount))
  const within = Decimal.min(billed, Decimal.max(zero, came))
  return new Decimal(cents(tax.times(within).div(billed)))
}

function dayBefore(day: string): string {
  return Temporal.PlainDate.from(day).subtract({ days: 1 }).toString()
}

function compare(one: string[], other: string[]): number {
  const at = one.findIndex((text, index) => text !== other[index])
  return at < 0 ? 0 : one[at]! < other[at]! ? -1 : 1
}
