import { earningsOf } from '../estimate/price/cost.ts'
import { costWith } from '../estimate/price/firm-price.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { isAdjustable, type LinesWanted } from './compose-lines.ts'
import { composeQuote } from './compose-quote.ts'
import { lineName } from './line-name.ts'
import type { Priced } from './pricing.ts'

/** What one change does: 'Travel: -$20.00. Margin -1.2 points. Pay per labor hour -$3.10.' */
export type Effect = string

interface Change {
  what: string
  without: { wanted: LinesWanted; hours: Decimal }
}

/**
 * What each change of the contractor's does to the total, and with costs to margin and to pay per labor hour, beside all the
 * others.
 */
export function effectsOf(
  priced: Priced,
  wanted: LinesWanted & { laborHours: string | null },
  hasCosts: boolean,
): Effect[] {
  const hours = new Decimal(wanted.laborHours ?? priced.price.laborHoursTotal)
  const now = standing(priced, wanted, hours, hasCosts)
  return changesOf(priced, wanted, hours, hasCosts).map(({ what, without }) =>
    effectInWords(
      what,
      standing(priced, without.wanted, without.hours, hasCosts),
      now,
      priced.rates.body.currency,
    ),
  )
}

/** What it means to go from one standing to another: what it is called, total, margin and pay. */
export function effectInWords(what: string, before: Standing, now: Standing, currency: string): Effect {
  const money = (amount: Decimal) => signed(amount, moneyInWords(cents(amount.abs()), currency, 'en'))
  const points = now.margin && before.margin && now.margin.minus(before.margin).times(100).toDecimalPlaces(1)
  const pay = now.pay && before.pay && now.pay.minus(before.pay).toDecimalPlaces(2)
  const total = now.total.minus(before.total)
  return [
    total.isZero() ? `${what}.` : `${what}: ${money(total)}.`,
    points ? `Margin ${signed(points, points.abs().toFixed(1))} points.` : '',
    pay ? `Pay per labor hour ${money(pay)}.` : '',
  ]
    .filter(Boolean)
    .join(' ')
}

function changesOf(
  priced: Priced,
  wanted: LinesWanted & { laborHours: string | null },
  hours: Decimal,
  hasCosts: boolean,
): Change[] {
  const { price, rates } = priced
  const lines = price.lines.filter(isAdjustable).flatMap((line, at): Change[] => {
    const own = wanted.amounts?.[at]
    if (!own || cents(own.amount) === cents(line.amount)) return []
    const amounts = wanted.amounts!.map((one, index) =>
      index === at ? { ...one, amount: line.amount } : one,
    )
    const what = lineName({ ...line, description: null }, rates.body, 'en')
    return [{ what, without: { wanted: { ...wanted, amounts }, hours } }]
  })
  const added = wanted.added.map(({ description }, at): Change => {
    const rest = wanted.added.filter((_line, index) => index !== at)
    return { what: description || 'Your own line', without: { wanted: { ...wanted, added: rest }, hours } }
  })
  const workedOut = new Decimal(price.laborHoursTotal)
  // Other hours cost something else, and change no total.
  const labor =
    hours.eq(workedOut) || !hasCosts ? [] : [{ what: 'Labor hours', without: { wanted, hours: workedOut } }]
  return [...lines, ...added, ...labor]
}

/** What a price comes to and earns; margin a share, pay for each labor hour, null where they can't or mayn't be told. */
export interface Standing {
  total: Decimal
  margin: Decimal | null
  pay: Decimal | null
}

/** Where a price stands with what the contractor made of it and so many labor hours. */
export function standing(priced: Priced, wanted: LinesWanted, hours: Decimal, hasCosts: boolean): Standing {
  const { net, total } = composeQuote(priced, wanted)
  const costs = hasCosts && costWith(hours, priced, priced.rates.body)
  const { margin, payPerLaborHour: pay } = costs
    ? earningsOf(new Decimal(net), costs, hours)
    : { margin: null, payPerLaborHour: null }
  return { total: new Decimal(total), margin, pay }
}

function signed(amount: Decimal, words: string): string {
  return `${amount.lt(0) ? '-' : '+'}${words}`
}
