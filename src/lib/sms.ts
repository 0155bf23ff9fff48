/** Of how many parts a text message is, and in which alphabet it goes, by 3GPP TS 23.038. */
export interface SmsSize {
  alphabet: 'GSM-7' | 'UCS-2'
  parts: number
}

/** The basic characters, one septet each (3GPP TS 23.038, section 6.2.1). */
const BASIC = new Set(
  '@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !"#¤%&\'()*+,-./0123456789:;<=>?¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà',
)
/** Those that take an escape before them, so two septets (section 6.2.1.1). */
const EXTENDED = new Set('^{}\\[~]|€\f')

/** What one message holds, and each part of a longer one, whose header takes six bytes. */
const ROOM = { 'GSM-7': { one: 160, part: 153 }, 'UCS-2': { one: 70, part: 67 } } as const

const INSTEAD: Record<string, string> = {
  ...{ '’': "'", '‘': "'", '‚': "'", '“': '"', '”': '"', '„': '"', '«': '"', '»': '"' },
  ...{ '–': '-', '—': '-', '‑': '-', '−': '-', '…': '...', '•': '-', '·': '-', '×': 'x', '½': '1/2' },
  ...{ '\u00a0': ' ', '\u202f': ' ', '\u2009': ' ', '\u200b': '', '\t': ' ' },
}

/**
 * A text in the characters that a text message has room for most of, as far as that changes no word: plain quotes and
 * dashes, and accents left out that would halve the room (á, í, ó, ú; é and ñ are among them). Other scripts stay.
 */
export function inPlainCharacters(text: string): string {
  return [...text.normalize('NFC')].map(plainCharacter).join('')
}

function plainCharacter(character: string): string {
  if (BASIC.has(character) || EXTENDED.has(character)) return character
  const instead = INSTEAD[character]
  if (instead !== undefined) return instead
  const bare = character.normalize('NFD').replace(/\p{M}/gu, '')
  return bare.length === 1 && BASIC.has(bare) ? bare : character
}

/** Whether every character of a text is one of GSM-7. */
export function isGsm(text: string): boolean {
  return [...text].every(character => BASIC.has(character) || EXTENDED.has(character))
}

/** How many messages a text takes. No character is split between two of them. */
export function smsSize(text: string): SmsSize {
  const alphabet = isGsm(text) ? 'GSM-7' : 'UCS-2'
  const sizes = [...text].map(character =>
    alphabet === 'UCS-2' ? character.length : EXTENDED.has(character) ? 2 : 1,
  )
  const { one, part } = ROOM[alphabet]
  if (sizes.reduce((all, size) => all + size, 0) <= one) return { alphabet, parts: 1 }
  let parts = 1
  let used = 0
  for (const size of sizes) {
    if (used + size > part) {
      parts += 1
      used = 0
    }
    used += size
  }
  return { alphabet, parts }
}
