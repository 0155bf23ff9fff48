import type { Key } from '../language/catalogue.ts'
import { isCommonPassword } from './common-passwords.ts'
import { COMMON_PIECES } from './common-pieces.ts'
import { withoutWalks } from './keyboard.ts'

export const LEAST_CHARACTERS = 15
export const MOST_CHARACTERS = 256
const LEAST_UNCOMMON = 5
const LONGEST_SAID_AGAIN = 12

/**
 * Why a password can't be taken, as a key of the message catalogue, or null. Long enough is all that is asked
 * (NIST SP 800-63B, 3.1.1.2), and that it isn't what everybody tries first: a password that others were found to have, also with
 * digits and signs around it, or put together of common ones, walks over the keyboard, counting, one thing said over and
 * over, or `own` words: the person's name, address or business.
 */
export async function passwordFault(password: string, own: string[]): Promise<Key | null> {
  const characters = [...password.normalize('NFKC')].length
  if (characters < LEAST_CHARACTERS) return 'account.password-short'
  if (characters > MOST_CHARACTERS) return 'account.password-long'
  const isCommon = isPutTogether(password, own) || (await isCommonPassword(spellings(password)))
  return isCommon ? 'account.password-common' : null
}

function isPutTogether(password: string, own: string[]): boolean {
  const plain = plainly(password)
  const typed = withoutSigns(inSmall(password))
  const wholes = [plain, typed].flatMap(text => [text, text.replace(/^\d+|\d+$/g, '')])
  if (wholes.some(isOverAndOver) || isBarely(unwoven(typed))) return true
  const ownPieces = own.flatMap(text => plainWords(text)).filter(word => word.length > 2)
  const pieces = [...COMMON_PIECES, ...ownPieces].sort((a, b) => b.length - a.length)
  const left = pieces.reduce((rest, piece) => rest.replaceAll(piece, ' '), plain)
  return isBarely(withoutWalks(left))
}

/** Whether hardly any letter is left without runs and digits. */
function isBarely(text: string): boolean {
  return new Set(withoutRuns(text).replace(/[\d\s]/g, '')).size < LEAST_UNCOMMON
}

// a1b2c3d4 is abcd and 1234, one woven into the other.
function unwoven(text: string): string {
  const every = (rest: number) => [...text].filter((_, index) => index % 2 === rest).join('')
  return `${every(0)} ${every(1)}`
}

// abcabcabcab: the end may be cut off.
function isOverAndOver(text: string): boolean {
  const characters = [...text]
  const recursAfter = (length: number) =>
    characters.every((character, index) => index < length || character === characters[index - length])
  const longest = Math.min(LONGEST_SAID_AGAIN, Math.floor(characters.length / 2))
  return characters.some((_, index) => index > 0 && index <= longest && recursAfter(index))
}

/** As typed and as it is meant, with and without the digits and signs around it. */
function spellings(password: string): Set<string> {
  const typed = password.normalize('NFKC')
  const whole = [typed, typed.toLowerCase(), plainly(typed)]
  return new Set([...whole, ...whole.map(text => text.replace(/^[^\p{L}]+|[^\p{L}]+$/gu, ''))])
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
  const undisguised = inSmall(password).replace(/(?<=\p{L})[@4310!$5](?=\p{L})/gu, mark => DISGUISED[mark]!)
  return withoutSigns(undisguised)
}

function inSmall(password: string): string {
  return password.normalize('NFKC').toLowerCase()
}

function withoutSigns(text: string): string {
  return text.replace(/[^\p{L}\p{N}]+/gu, '')
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
