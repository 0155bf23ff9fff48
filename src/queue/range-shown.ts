import { drawRange } from '../drawing/range-bar.ts'
import { moneyInWords, rangeInWords } from '../language/money-in-words.ts'
import type { RequestRow } from '../requests/queries.ts'

/** The range that a homeowner was given, in words and drawn; null where there was none. */
export function rangeShown(
  { low, likely, high }: RequestRow,
  currency: string,
): { words: string; drawing: string } | null {
  if (low === null || likely === null || high === null) return null
  const words = rangeInWords(low, high, currency)
  const inWords = (amount: string) => moneyInWords(amount, currency, 'en', { whole: true })
  const labels = { low: inWords(low), likely: inWords(likely), high: inWords(high) }
  const drawing = drawRange({
    low: Number(low),
    likely: Number(likely),
    high: Number(high),
    labels,
    title: `${words}, most likely ${labels.likely}`,
    id: 'range',
  })
  return { words, drawing }
}
