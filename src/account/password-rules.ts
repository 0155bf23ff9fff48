import type { Key } from '../language/catalogue.ts'
import { COMMON_PIECES } from './common-pieces.ts'

export const LEAST_CHARACTERS = 15
export const MOST_CHARACTERS = 256
const LEAST_UNCOMMON = 5

/**
 * Why a password can't be taken, as a key of the message catalogue, or null. Long enough is all that is asked
 * (NIST SP 800-63B, 3.1.1.2), and that it isn't put together of what everybody tries first: common passwords,
 * keyboard rows, counting, one thing said over and over, or `own` words: the person's name, address or business.
 */
export function passwordFault(password: string, own: string[]): Key | null {
  const characters = [...password.normalize('NFKC')].length
  if (characters < LEAST_CHARACTERS) return 'account.password-short'
  if (characters > MOST_CHARACTERS) return 'account.password-long'
  return isCommon(password, own) ? 'account.password-common' : null
}

function isCommon(password: string, own: string[]): boolean {
  const plain = plainly(password)
  if (/^(.{1,7})\1+$/u.test(plain)) return true
  const ownPieces = own.flatMap(text => plainWords(text)).filter(word => word.length > 2)
  const pieces = [...COMMON_PIECES, ...ownPieces].sort((a, b) => b.length - a.length)
  const left = pieces.reduce((rest, piece) => rest.replaceAll(piece, ' '), withoutRuns(plain))
  return new Set(left.replace(/[\d\s]/g, '')).size < LEAST_UNCOMMON
}

const DISGUISED: Record<string, string> = {
  '@': 'a',
  '4': 'a',
  '3': 'e',
  '1': 'i',
  '!': 'i',
  '0': 'o',
  $: 's',
  '5': 's',
}

function plainly(password: string): string {
  const lower = password.normalize('NFKC').toLowerCase()
  const undisguised = lower.replace(/(?<=\p{L})[@4310!$5](?=\p{L})/gu, mark => DISGUISED[mark]!)
  return undisguised.replace(/[^\p{L}\p{N}]+/gu, '')
}

function plainWords(text: string): string[] {
  return text.toLowerCase().split(/[^\p{L}\p{N}]+/u)
}

// abcdef, 987654, aaaaaa: each character a step of the same size from the one before.
function withoutRuns(text: string): string {
  const characters = [...text]
  const step = (index: number) => characters[index]!.codePointAt(0)! - characters[index - 1]!.codePointAt(0)!
  const isRun = (index: number) => index > 1 && Math.abs(step(index)) <= 1 && step(index) === step(index - 1)
  return characters.filter((_, index) => !isRun(index)).join('')
}
