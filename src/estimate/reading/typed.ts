import { Decimal, two } from '../../lib/decimal.ts'
import { plainDecimal } from '../../lib/plain-decimal.ts'
import { numbersInDigits } from './number-words.ts'

export const LONGEST_TYPED = 200

const fractions: Record<string, string> = {
  '½': '1⁄2',
  '⅓': '1⁄3',
  '⅔': '2⁄3',
  '¼': '1⁄4',
  '¾': '3⁄4',
  '⅕': '1⁄5',
  '⅖': '2⁄5',
  '⅗': '3⁄5',
  '⅘': '4⁄5',
  '⅙': '1⁄6',
  '⅚': '5⁄6',
  '⅛': '1⁄8',
  '⅜': '3⁄8',
  '⅝': '5⁄8',
  '⅞': '7⁄8',
}

/** Text being read from left to right. */
export interface Scanner {
  text: string
  at: number
}

/**
 * Starts reading: curly quotes, primes, dashes, one-sign fractions, raised figures, odd spaces and accents made plain, and
 * numbers in words put in digits.
 */
export function scan(typed: string): Scanner {
  const plain = typed
    .replace(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]/g, sign => ` ${fractions[sign]}`)
    .replace(/[‘’ʼ′´`]/g, "'")
    .replace(/[“”„″]|''/g, '"')
    .replace(/[×✕*]/g, 'x')
    .replace(/[‐‑‒–—−]/g, '-')
    .replace(/[⁰¹²³⁴-⁹]/g, sign => `^${sign}`)
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/''/g, '"')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase()
  return { text: numbersInDigits(plain), at: 0 }
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

/** A number as read, with its text, and the digits as typed (a fraction: ''). */
export interface TypedNumber {
  value: Decimal
  digits: string
  text: string
}

const mixed = /(\d+)(?:[ -]| (?:and|y|&) ?)(\d+)([/⁄])(\d+)/y
const fraction = /(\d+)([/⁄])(\d+)/y

// A tape's halves to sixty-fourths, and thirds: common practice. The finer ones stand by themselves only reduced.
const ofTape = ['2', '3', '4', '8']
const fine = ['16', '32', '64']
const rarer = ['5', '6', '10', '12']
const spaced = /[1-9]\d{0,2}(?: \d{3})+(?![\d.,/⁄]|['"])/y
const plain = /\d[\d.,]*|[.,]\d+/y

/**
 * Takes a number: 12, 12.5, 3,8, 1,200, 1 200, 12 1/2, 12-1/2, 12 and 1/2, 1/2. Of fractions only proper ones as people
 * write them: 20/5 and 20/30 are none.
 */
export function takeNumber(scanner: Scanner): TypedNumber | null {
  const start = scanner.at
  const number = takeFraction(scanner) ?? takeSpaced(scanner) ?? takePlain(scanner)
  if (!number) scanner.at = start
  return number
}

function takeFraction(scanner: Scanner): TypedNumber | null {
  const withWhole = take(scanner, mixed)
  const found = withWhole ?? take(scanner, fraction)
  if (!found) return null
  const [whole, over, sign, under] = withWhole ? found.slice(1) : ['0', ...found.slice(1)]
  const isSure = withWhole !== null || sign === '⁄' || (over === '1' && / ?[a-z]/.test(nextTwo(scanner)))
  if (!isFraction(new Decimal(over!), new Decimal(under!), isSure)) return null
  const text = `${withWhole ? `${whole} ` : ''}${over}${sign}${under}`
  return { value: new Decimal(over!).div(under!).plus(whole!), digits: '', text }
}

function nextTwo({ text, at }: Scanner): string {
  return text.slice(at, at + 2)
}

// 4/5 may be four or five, 20/30 twenty by thirty. A fifth is one where it follows a whole number, is one sign, or is one
// fifth of a unit that is named.
function isFraction(over: Decimal, under: Decimal, isSure: boolean): boolean {
  if (over.gte(under) || (over.isZero() && !isSure)) return false
  if (ofTape.includes(under.toFixed())) return true
  if (fine.includes(under.toFixed())) return isSure || !over.mod(two).isZero()
  return isSure && rarer.includes(under.toFixed())
}

function takeSpaced(scanner: Scanner): TypedNumber | null {
  const found = take(scanner, spaced)
  if (!found) return null
  const digits = found[0].replaceAll(' ', '')
  return { value: new Decimal(digits), digits, text: digits }
}

function takePlain(scanner: Scanner): TypedNumber | null {
  const found = take(scanner, plain)
  const digits = found?.[0].replace(/[.,]$/, '')
  const written = digits && plainDecimal(digits)
  if (!written) return null
  const text = digits.replace(/^0+(?=\d)/, '').replace(/^(?=[.,])/, '0')
  return { value: new Decimal(written), digits, text }
}
