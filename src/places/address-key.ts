import { isDirection, isKindOfStreet, streetWord, UNIT_WORDS } from './street-words.ts'

/** An address by which a place is known again. `street` is null where too little is told to know it by. */
export interface AddressKey {
  /** Number, street and unit in one spelling: '12 fern ln', '6 oak st #4b'. */
  street: string | null
  /** '43004', 'SW1A1AA'; '' where none is told, which fits any. */
  postcode: string
}

/** The number of a house, which may be set off from its street by a comma. */
const NUMBER = /^\d+[a-z]?$/

/** Where a box stands for a street. */
const BOX = /^p\s*o\s*box\s+(\w+)/

/**
 * An address in any spelling, in the one that all come to: words of streets and directions, accents, marks, the town
 * after the street, units however they are set off, ZIP+4. What it can't tell it leaves: two spellings that come to
 * the same are offered to somebody who decides.
 */
export function addressKey(street: string, postcode: string): AddressKey {
  const code = postcodeKey(postcode)
  const parts = partsOf(street)
  const units: string[] = []
  const streets: string[] = []
  for (const part of parts) {
    const { words, unit } = withoutUnit(part)
    if (unit) units.push(unit)
    if (words.length > 0) streets.push(words.join(' '))
  }
  const [first = '', second = ''] = streets
  const isSetOff = NUMBER.test(first) || (!/\d/.test(first) && NUMBER.test(second))
  const told = isSetOff ? `${first} ${second}` : first
  return { street: keyOf(told, units, code), postcode: code }
}

/** A ZIP by its first five digits, another postcode without spaces and hyphens. */
function postcodeKey(postcode: string): string {
  const bare = postcode.toUpperCase().replace(/[^A-Z0-9]/g, '')
  return /^\d{9}$/.test(bare) ? bare.slice(0, 5) : bare
}

function partsOf(street: string): string[] {
  const plain = street
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll('ß', 'ss')
    .replace(/['’`.]/g, '')
    .replace(/\s*#\s*/g, ' #')
    .replaceAll('&', ' and ')
    .replace(/(?<!\d)\/|\/(?!\d)|(?<!\d)-|-(?!\w)/g, ' ')
  return plain.split(/[,;\n]/).map(part => part.replace(/[^\p{L}\p{N}#/-]+/gu, ' ').trim())
}

/** 'apt 4-b', '#4b' and 'unit 4 b' are all unit 4b. */
function withoutUnit(part: string): { words: string[]; unit: string } {
  const words = part.split(' ').filter(Boolean)
  const at = words.findIndex(
    (word, index) =>
      /^#\w/.test(word) || (UNIT_WORDS.has(word) && (words[index + 1] ?? '').match(/^#?(\w{1,2}|\d[\w-]*)$/)),
  )
  if (at < 0) return { words, unit: '' }
  const named = UNIT_WORDS.has(words[at]!)
  const [unit, next] = words.slice(named ? at + 1 : at)
  // 'no 12 fern lane' is the number of the house.
  if (at === 0 && words[0]!.startsWith('no') && words.length > 2) return { words: words.slice(1), unit: '' }
  const letter = next && /^[a-z]$/.test(next) && /^#?\d+$/.test(unit!) ? next : ''
  const taken = (named ? 2 : 1) + (letter ? 1 : 0)
  return { words: [...words.slice(0, at), ...words.slice(at + taken)], unit: bareUnit(unit! + letter) }
}

function bareUnit(unit: string): string {
  return unit.replace(/[^a-z0-9]/g, '')
}

function keyOf(told: string, units: string[], code: string): string | null {
  const box = BOX.exec(told)
  if (box) return `box ${box[1]}`
  const words = numberFirst(joinedNumber(told.split(' ').filter(word => word && word.toUpperCase() !== code)))
  const named = words.map((word, index) => (index === 0 ? word : streetWord(word)))
  const { street, unit } = withoutTown(named)
  if (street.filter(word => /\p{L}/u.test(word)).length === 0) return null
  const all = [...units, unit].filter(Boolean)
  return [...street, ...all.map(one => `#${one}`)].join(' ')
}

// 12 a, 12-a and 12a; 12 1/2 stays two words.
function joinedNumber(words: string[]): string[] {
  const [number = '', letter = '', ...rest] = words
  if (/^\d+$/.test(number) && /^[a-d]$/.test(letter) && rest.length > 1) return [number + letter, ...rest]
  return [number.replace(/^(\d+)-([a-z])$/, '$1$2'), ...words.slice(1)]
}

// Where the number follows the street, as in much of the world.
function numberFirst(words: string[]): string[] {
  const last = words.at(-1) ?? ''
  const isAfter = words.length > 1 && !/^\d/.test(words[0]!) && NUMBER.test(last)
  return isAfter ? [last, ...words.slice(0, -1)] : words
}

/** What follows the kind of street is a direction, a unit without its word, or the town, which the ZIP says too. */
function withoutTown(words: string[]): { street: string[]; unit: string } {
  const kind = kindIn(words)
  if (kind < 0 || !/^\d/.test(words[0] ?? '')) return { street: words, unit: '' }
  let end = kind + 1
  if (isDirection(words[end] ?? '')) end += 1
  // Route 12, Highway 290: the number is the street's name.
  const next = words[end] ?? ''
  if (/^(hwy|rte|rd)$/.test(words[kind]!) && /^\d+$/.test(next))
    return { street: words.slice(0, end + 1), unit: '' }
  const unit = NUMBER.test(next) ? next : ''
  return { street: words.slice(0, end), unit }
}

// The last one, unless it is the saint in the name of a town after another.
function kindIn(words: string[]): number {
  const kinds = words.flatMap((word, index) => (index > 1 && isKindOfStreet(word) ? [index] : []))
  const last = kinds.at(-1) ?? -1
  const isSaint = words[last] === 'st' && last < words.length - 1 && !isDirection(words[last + 1]!)
  return isSaint && kinds.length > 1 ? kinds.at(-2)! : last
}
