import type { Finish, RateTable, Span } from '../../estimate/table/rate-table.ts'
import { type Row, type TogetherRow, valueAt } from '../../estimate/table/rows.ts'
import { bulkName, unitOf } from '../../estimate/units/unit-of.ts'
import { figureInWords, moneyInWords } from '../../language/money-in-words.ts'
import { Decimal } from '../../lib/decimal.ts'
import { perInWords, rateUnitInWords } from './rate-words.ts'

type Each = { per: RateTable['extras'][number]['per'] }

/** What is looked at as one, with its units: '$85 to $105 per cubic yard', '2 in, give or take 0.25'. */
export function valueInWords(one: TogetherRow, value: unknown, whole: unknown, table: RateTable): string {
  const [row] = one.rows
  if (value === null) return 'not known'
  if (one.wordsOfNone && one.rows.every(({ path }) => Number(valueAt(value, path)) === 0))
    return one.wordsOfNone
  const template = (one.words ?? usual(row!.unit ?? '')).replace('{sold}', () =>
    rateUnitInWords(whole as Finish, table),
  )
  const per = template.includes('for each') ? perInWords((whole as Each).per, table.units) : ''
  return withValues(template.replace('for each', per), one, value, table)
}

/** Figures put into a text in braces: '{}' for all of it, '{least}' for one of its steps. */
export function withValues(
  template: string,
  { rows }: TogetherRow,
  value: unknown,
  table: RateTable,
): string {
  const rowAt = (step: string) => rows.find(({ path }) => path.replace(/^\*\./, '') === step)
  const filled = template.replace(/\{(\w*)\}/g, (braces, step: string) => {
    const figure = valueAt(value, step)
    if (step === '' && typeof figure === 'object')
      return spanInWords(figure as Span, each => oneInWords(each, rows[0]!, table))
    if (typeof figure !== 'string') return braces
    const row = rowAt(step)
    return !row ? figure : oneInWords(figure, row, table)
  })
  return unitOf(filled.replace('{bulk}', bulkName(table)), table)
}

function usual(unit: string): string {
  if (unit === 'times') return '× {}'
  if (unit === 'share') return '{}'
  return `{} ${unit.replace(/^\{money\} ?/, '')}`.trim()
}

function oneInWords(figure: string, { kind, unit = '' }: Row, { currency }: RateTable): string {
  if (kind === 'share') return percentInWords(figure)
  if (unit.startsWith('{money}')) return moneyInWords(figure, currency, 'en', { whole: true, exact: true })
  return figureInWords(figure, 'en', 9)
}

/** A share as "5%". */
function percentInWords(share: string): string {
  return `${new Decimal(share).times(100).toFixed()}%`
}

/** A lower and an upper figure, each put into words: '$85 to $105'; one where they are alike. */
function spanInWords({ lower, upper }: Span, inWords: (figure: string) => string): string {
  return new Decimal(lower).eq(upper) ? inWords(lower) : `${inWords(lower)} to ${inWords(upper)}`
}
