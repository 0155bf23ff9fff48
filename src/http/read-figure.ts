import { cents } from '../lib/decimal.ts'
import { plainDecimal } from '../lib/plain-decimal.ts'

const LONGEST = 40

const AROUND = /^(?:[$€£¥]|[a-z]{3}(?=[\s\d]))|(?:[$€£¥]|[a-z]{3}|h|hours?)$/gi

/**
 * Reads a figure as people write one: "1,250.50", "$85", "1 250,50", "0.75 hours". Gives a plain decimal such as
 * "1250.5" with no more than `places` decimals, or null when it is none, below zero or above 9,999,999.
 */
export function readFigure(typed: string, places: number): string | null {
  const trimmed = typed.trim()
  if (trimmed.length > LONGEST) return null
  const bare = trimmed.replace(AROUND, '').replace(/[\s'’]/g, '')
  if (!/^[.,]*\d[\d.,]*$/.test(bare)) return null
  const plain = plainDecimal(bare)
  const parts = plain && /^(\d{1,7})(?:\.(\d+))?$/.exec(plain)
  if (!parts) return null
  const decimals = (parts[2] ?? '').replace(/0+$/, '')
  if (decimals.length > places) return null
  const whole = parts[1]!.replace(/^0+(?=\d)/, '')
  return decimals ? `${whole}.${decimals}` : whole
}

/** Reads an amount of money that may be below zero, "-1,250.50" as '-1250.50'; null when it is none. */
export function readAmount(typed: string): string | null {
  const [, sign, rest] = /^\s*([-−–]?)\s*(.*)$/s.exec(typed)!
  const figure = readFigure(rest!, 2)
  return figure === null ? null : cents(`${sign && figure !== '0' ? '-' : ''}${figure}`)
}
