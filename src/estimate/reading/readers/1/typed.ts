import { Decimal } from '../../../../lib/decimal.ts'
import { plainDecimal } from '../../../../lib/plain-decimal.ts'

export const LONGEST_TYPED = 200

const fractions: Record<string, string> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
}

/** Text being read from left to right. */
export interface Scanner {
  text: string
  at: number
}

/** Starts reading: curly quotes, primes, dashes, one-sign fractions, raised figures, odd spaces and accents made plain. */
export function scan(typed: string): Scanner {
  const plain = typed
    .replace(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]/g, sign => ` ${fractions[sign]}`)
    .replace(/[‘’ʼ′´`]/g, "'")
    .replace(/[“”„″]|''/g, '"')
    .replace(/[×✕*]/g, 'x')
    .replace(/[‐‑‒–—−]/g, '-')
    .replace(/⁄/g, '/')
    .replace(/[⁰¹²³⁴-⁹]/g, sign => `^${sign}`)
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/''/g, '"')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase()
  return { text: plain, at: 0 }
}

/** Takes what the sticky pattern finds next, past any space; null and no move when it finds nothing. */
export function take(scanner: Scanner, pattern: RegExp): RegExpExecArray | null {
  const start = scanner.text[scanner.at] === ' ' ? scanner.at + 1 : scanner.at
  pattern.lastIndex = start
  const found = pattern.exec(scanner.text)
  if (found) scanner.at = pattern.lastIndex
  return found
}

export function atEnd(scanner: Scanner): boolean {
  return scanner.text.slice(scanner.at).trim() === ''
}

/** A number as read, with the digits as typed (a fraction: ''). */
export interface TypedNumber {
  value: Decimal
  digits: string
}

const mixed = /(\d+)(?:[ -]| (?:and|y|&) ?)(\d+)\/(\d+)/y
const fraction = /(\d+)\/(\d+)/y
const plain = /\d[\d.,]*|[.,]\d+/y

/** Takes a number: 12, 12.5, 3,8, 1,200, 12 1/2, 12-1/2, 12 and 1/2, 1/2. */
export function takeNumber(scanner: Scanner): TypedNumber | null {
  const start = scanner.at
  const number = takeFraction(scanner) ?? takePlain(scanner)
  if (!number) scanner.at = start
  return number
}

function takeFraction(scanner: Scanner): TypedNumber | null {
  const withWhole = take(scanner, mixed)
  const found = withWhole ?? take(scanner, fraction)
  if (!found) return null
  const [whole, over, under] = withWhole ? found.slice(1) : ['0', found[1], found[2]]
  const divisor = new Decimal(under!)
  if (divisor.isZero()) return null
  return { value: new Decimal(over!).div(divisor).plus(whole!), digits: '' }
}

function takePlain(scanner: Scanner): TypedNumber | null {
  const found = take(scanner, plain)
  const written = found && plainDecimal(found[0].replace(/[.,]$/, ''))
  return written ? { value: new Decimal(written), digits: found[0] } : null
}
