import { inPlainCharacters, isGsm, smsSize } from '../lib/sms.ts'

const MOST_PARTS = 2
/** How many letters of a name are kept where there is no room for all: many at first, then few. */
const KEPT = [24, 8]

/** Where the owner's own words want the link; ours have it at their end. */
export const LINK = '{link}'

/**
 * The words of a text message: the business, what there is to say, the link. Two messages long at most, as long as the
 * link is no longer than usual: for that a name is said in plain characters, and then cut.
 */
export function textWords(business: string, brief: string, address: string | undefined): string {
  const said = brief.includes(LINK)
    ? brief.replaceAll(LINK, address ?? '')
    : [brief, address].filter(Boolean).join(' ')
  const rest = inPlainCharacters(said)
  const name = oneLine(inPlainCharacters(business))
  const plainName = oneLine([...name].filter(isGsm).join(''))
  const names = [
    name,
    plainName,
    ...KEPT.map(most => cut(plainName, most, '...')),
    ...KEPT.map(most => cut(name, most, '…')),
  ].filter(one => /[\p{L}\p{N}]/u.test(one))
  const texts = names.map(one => `${one}: ${rest}`)
  return texts.find(text => smsSize(text).parts <= MOST_PARTS) ?? texts.at(-1) ?? rest
}

function cut(name: string, most: number, end: string): string {
  const letters = [...new Intl.Segmenter().segment(name)].map(({ segment }) => segment)
  return letters.length > most ? letters.slice(0, most).join('').trim() + end : name
}

function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ').trim()
}
