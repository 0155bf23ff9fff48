import { moneyInWords } from '../../language/money-in-words.ts'
import type { Preview } from './preview.ts'

/** The preview with every amount in words; null where a request can't be worked out. */
export interface PreviewInWords {
  rows: {
    number: string
    name: string
    own: string | null
    inForce: string | null
    draft: string | null
    difference: string | null
  }[]
  priced: number
  own: string
  inForce: string
  draft: string
  difference: string
}

/** Puts a preview into words: amounts with their currency, differences with their sign. */
export function previewInWords(preview: Preview, currency: string): PreviewInWords {
  const money = (amount: string | null) => amount && moneyInWords(amount, currency, 'en')
  const signed = (amount: string | null) => amount && withSign(amount, currency)
  return {
    rows: preview.rows.map(({ own, inForce, draft, difference, ...row }) => ({
      ...row,
      own: money(own),
      inForce: money(inForce),
      draft: money(draft),
      difference: signed(difference),
    })),
    priced: preview.priced,
    own: money(preview.own)!,
    inForce: money(preview.inForce)!,
    draft: money(preview.draft)!,
    difference: signed(preview.difference)!,
  }
}

function withSign(amount: string, currency: string): string {
  if (Number(amount) === 0) return 'none'
  const words = moneyInWords(amount.replace('-', ''), currency, 'en')
  return amount.startsWith('-') ? `−${words}` : `+${words}`
}
