import type { Amount } from '../db/schema/payments.ts'
import { readFigure } from '../http/read-figure.ts'
import { Decimal } from '../lib/decimal.ts'

/** Reads an amount as '25%' or '100'; null where it is neither, or nothing at all. */
export function readAmountAsked(typed: string): Amount | null {
  const share = /^(.*\d)\s*%$/.exec(typed)
  const figure = readFigure(share ? share[1]! : typed, share ? 4 : 2)
  if (figure === null || Number(figure) === 0) return null
  if (!share) return { by: 'money', value: new Decimal(figure).toFixed(2) }
  return Number(figure) > 100 ? null : { by: 'share', value: new Decimal(figure).div(100).toFixed() }
}

/** An amount as the field of a form. */
export function amountTyped(amount: Amount | null | undefined): string {
  if (!amount) return ''
  return amount.by === 'share' ? `${new Decimal(amount.value).times(100).toFixed()}%` : amount.value
}
