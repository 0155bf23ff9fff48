import type { RateTable } from '../estimate/table/rate-table.ts'
import type { Language } from '../language/language.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { cents, Decimal, sumOf } from '../lib/decimal.ts'
import { lineName } from './line-name.ts'
import type { QuoteWithLines } from './queries.ts'

/** One line of what differs between two quotes: what it was, what it is, null where there is none, and by how much. */
export interface DifferentLine {
  what: string
  before: string | null
  now: string | null
  by: string
}

export interface Difference {
  lines: DifferentLine[]
  before: string
  now: string
  by: string
}

type Line = QuoteWithLines['lines'][number]

/** What differs from the quote that was accepted last: every line that does, tax too, and the totals. */
export function differenceOf(
  before: QuoteWithLines,
  now: QuoteWithLines,
  tables: { before: RateTable; now: RateTable },
  language: Language,
): Difference {
  const money = (amount: Decimal | string) => moneyInWords(cents(amount), now.currency, language)
  const signOf = (amount: Decimal) => (amount.isZero() ? '' : amount.lt(0) ? '-' : '+')
  const signed = (amount: Decimal) => `${signOf(amount)}${money(amount.abs())}`
  const [old, fresh] = [
    byName(before.lines, line => lineName(line, tables.before, language)),
    byName(now.lines, line => lineName(line, tables.now, language)),
  ]
  const lines = [...new Set([...old.keys(), ...fresh.keys()])].flatMap((what): DifferentLine[] => {
    const [was, is] = [old.get(what), fresh.get(what)]
    const by = (is ?? new Decimal(0)).minus(was ?? 0)
    if (by.isZero() && was && is) return []
    return [{ what, before: was ? money(was) : null, now: is ? money(is) : null, by: signed(by) }]
  })
  return {
    lines,
    before: money(before.total),
    now: money(now.total),
    by: signed(new Decimal(now.total).minus(before.total)),
  }
}

// Lines of one name count together.
function byName(lines: Line[], nameOf: (line: Line) => string): Map<string, Decimal> {
  const names = [...new Set(lines.map(nameOf))]
  return new Map(
    names.map(name => [
      name,
      sumOf(lines.filter(line => nameOf(line) === name).map(({ amount }) => new Decimal(amount))),
    ]),
  )
}
