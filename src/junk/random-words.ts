/**
 * Which letters hardly ever follow another in a word of English or Spanish, "boxwood", "izquierda" and "fjord" thought of. A name or a word
 * from elsewhere may have such a pair; a text full of them is typed at random.
 */
const UNHEARD: Record<string, string> = {
  b: 'qxz',
  c: 'jx',
  d: 'x',
  f: 'qvxz',
  g: 'jqvxz',
  h: 'jqxz',
  j: 'bdfghlmnpqrstvwxyz',
  k: 'qxz',
  l: 'x',
  m: 'gjqxz',
  p: 'jqvxz',
  q: 'bcdefghjklmnoprstvwxyz',
  r: 'x',
  s: 'x',
  t: 'qx',
  v: 'bcdfghjkmpqtwxz',
  w: 'jqvxz',
  x: 'jkqrvz',
  y: 'qy',
  z: 'fjx',
}
const VOWELS = 'aeiouy'
const SHORTEST = 5
const MANY_CONSONANTS = 5

/**
 * What each letter from a to z says about a text: ten times the logarithm of how much oftener it stands in English and Spanish, on average, than if all
 * letters were as frequent (from the usual tables of letter frequencies). In either language a text sums up to much, drawn by lot to much less than nothing.
 */
const TELLS = [
  10, -10, 0, 3, 12, -10, -9, -1, 5, -26, -23, 2, -3, 6, 7, -6, -20, 5, 6, 6, -1, -14, -12, -31, -10, -26,
]
const FEWEST_LETTERS = 40

export interface RandomWords {
  /** Words of five letters and more, in the letters of English and Spanish. */
  words: number
  /** How many of them nobody would say. */
  random: number
  /** Whether the letters of all of it are such as no language has; never of a few words. */
  letters: boolean
}

/** How many words of a text look as if somebody, or a program, had typed at random. Other alphabets aren't looked at. */
export function countRandomWords(text: string): RandomWords {
  const plain = text.normalize('NFD').replace(/\p{M}/gu, '')
  // What stands in links and addresses is no word.
  const words = plain.replace(/\S*[@/]\S*|\S+\.\S+/g, ' ').match(/\p{L}+/gu) ?? []
  const long = words.filter(word => word.length >= SHORTEST && /^[a-z]+$/i.test(word))
  return { words: long.length, random: long.filter(isRandom).length, letters: hasRandomLetters(words) }
}

function hasRandomLetters(words: string[]): boolean {
  const letters = words
    .filter(word => /^[a-z]+$/i.test(word))
    .join('')
    .toLowerCase()
  if (letters.length < FEWEST_LETTERS) return false
  let told = 0
  for (let index = 0; index < letters.length; index++) told += TELLS[letters.charCodeAt(index) - 97]!
  return told < 0
}

function isRandom(word: string): boolean {
  // Capitals in the middle, as in "gHtRwQa", but not "McDonald".
  if (/[a-z][A-Z]+[a-z]+[A-Z]/.test(word)) return true
  const letters = word.toLowerCase()
  let run = 0
  let vowels = 0
  let unheard = 0
  for (const [index, letter] of [...letters].entries()) {
    const isVowel = VOWELS.includes(letter)
    run = isVowel ? 0 : run + 1
    if (isVowel) vowels += 1
    if (run >= MANY_CONSONANTS) return true
    if (UNHEARD[letter]?.includes(letters[index + 1] ?? ' ')) unheard += 1
  }
  return vowels === 0 || unheard > 0
}
