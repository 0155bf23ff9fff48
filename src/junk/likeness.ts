import { createHash } from 'node:crypto'

/** Shorter texts are alike by chance, "Please call me after four," and are only the same or not; still shorter ones say nothing. */
const FEWEST_WORDS = 8
const FEWEST_OF_SHORT = 4
const WORDS_TOGETHER = 3
const KEPT = 16
/** So many of those kept have to be the same in two texts that are near copies. */
const SAME_IN_COPIES = 9

export interface Sketch {
  hashes: string[]
  isShort: boolean
}

/**
 * What a text is known by: of every three words that follow each other in it a hash, of those the sixteen lowest, of a short text one of all. Null of
 * one that is too short. Near copies share most of them, whatever was changed here and there.
 */
export function sketchOf(text: string): Sketch | null {
  const words = text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .match(/[\p{L}\p{N}]+/gu)
  if (!words || words.length < FEWEST_OF_SHORT) return null
  if (words.length < FEWEST_WORDS) return { hashes: [hashOf(words.join(' '))], isShort: true }
  const hashes = new Set<string>()
  for (let start = 0; start + WORDS_TOGETHER <= words.length; start++)
    hashes.add(hashOf(words.slice(start, start + WORDS_TOGETHER).join(' ')))
  return { hashes: [...hashes].sort().slice(0, KEPT), isShort: false }
}

/** Whether two sketches are those of near copies, by how many of their hashes are the same. */
export function areCopies(same: number, one: string[], other: string[]): boolean {
  const kept = Math.min(one.length, other.length)
  return same >= Math.ceil((kept * SAME_IN_COPIES) / KEPT)
}

/** A short hash, of no use to whoever would know the text. */
export function hashOf(text: string): string {
  return createHash('sha1').update(text).digest('base64url').slice(0, 12)
}
