import type { Repeats } from './copies.ts'
import { countLinks, hasLinkMarkup } from './links-in.ts'
import { isLooseWords } from './loose-words.ts'
import { countRandomWords } from './random-words.ts'

/** From so many points on a request is held as maybe junk. */
export const HOLD_FROM = 10

/** From so many on it is clearly junk, and nobody is asked whether it's real: as with two weighty reasons. */
export const CLEARLY_FROM = 16

/** What somebody typed, none of which decides alone. */
export interface Words {
  name: string
  street: string
  preferredTimes: string
  gate: string
  dog: string
  note: string
}

/** All that is known of a request as it comes in. */
export interface Coming {
  words: Words
  /** What stands in the box that people don't see. */
  hiddenBox: string
  /** How long somebody had the form; null where that can't be told. */
  seconds: number | null
  /** How many came before: from the address within an hour, and those let in, from its network within an hour and from everywhere. */
  before: { address: number; network: number; minutes: number; day: number }
  /** Those that said nearly the same, in eight words or more; the same in fewer; and those of the same name, phone, email and street. */
  text: Repeats
  shortText: Repeats
  contact: Repeats
  /** Those that linked to one of the same sites. */
  site: Repeats
}

/** Why, in words for the staff, and how much it counts. */
export interface Reason {
  points: number
  words: string
}

export interface Verdict {
  points: number
  /** The weightiest first. */
  reasons: Reason[]
}

type Steps = readonly (readonly [from: number, points: number])[]

/** More than a household or an apartment house sends in an hour. */
const FROM_ADDRESS: Steps = [
  [5, 2],
  [12, 4],
  [30, 10],
]
const FROM_NETWORK: Steps = [
  [15, 3],
  [30, 6],
  [60, 10],
]
/**
 * Of those let in, within ten minutes and a day: more than one contractor is asked by people. While many come, doubt weighs more; who gives no cause for any
 * is let in until there are far too many.
 */
const IN_MINUTES: Steps = [
  [5, 4],
  [15, 5],
  [30, 6],
  [60, 10],
]
const IN_A_DAY: Steps = [[300, 10]]
const TEXT_HERE: Steps = [
  [3, 4],
  [6, 8],
  [10, 10],
]
const TEXT_ELSEWHERE: Steps = [
  [1, 4],
  [2, 10],
]
const SHORT_ELSEWHERE: Steps = [
  [3, 3],
  [6, 6],
  [10, 10],
]
const SITE_ELSEWHERE: Steps = [
  [2, 4],
  [4, 6],
]
/** Somebody may send several requests: for several yards, from home and from a phone. */
const CONTACT_HERE: Steps = [
  [4, 4],
  [10, 10],
]
const CONTACT_ELSEWHERE: Steps = [
  [2, 4],
  [3, 8],
  [4, 10],
]
const LINKS: Steps = [
  [1, 2],
  [2, 5],
  [3, 8],
  [4, 10],
]
const TOO_FAST_SECONDS = 3
const DAY_SECONDS = 24 * 60 * 60
const TOO_OLD_DAYS = 14

/** How much speaks for a request being junk, and what; nothing of it does alone but the hidden box, many copies and a flood. */
export function score(coming: Coming): Verdict {
  const reasons = [
    ...ofForm(coming),
    ...ofLinks(coming.words),
    ...ofRandomWords(coming.words),
    ...ofRepeats(coming),
    ...ofBudgets(coming.before),
  ].sort((a, b) => b.points - a.points)
  return { points: reasons.reduce((sum, { points }) => sum + points, 0), reasons }
}

function ofForm({ hiddenBox, seconds }: Coming): Reason[] {
  const reasons: Reason[] = []
  if (hiddenBox.trim() !== '')
    reasons.push({ points: 10, words: 'A box that people don’t see was filled in' })
  if (seconds === null)
    reasons.push({ points: 4, words: 'It doesn’t say when the form was opened, as our form does' })
  else if (seconds < TOO_FAST_SECONDS)
    reasons.push({ points: 5, words: `Name and address were typed in ${secondsInWords(seconds)}` })
  else if (seconds > TOO_OLD_DAYS * DAY_SECONDS)
    reasons.push({ points: 2, words: `The form was opened ${Math.floor(seconds / DAY_SECONDS)} days before` })
  return reasons
}

function ofLinks(words: Words): Reason[] {
  const { note, ...others } = words
  const reasons = atLeast(LINKS, countLinks(note), count => `${counted(count, 'link')} in the note`)
  const elsewhere = Object.values(others).join('\n')
  if (countLinks(elsewhere) > 0)
    reasons.push({ points: 8, words: 'A link where a name, address, or time belongs' })
  if (hasLinkMarkup(`${note}\n${elsewhere}`))
    reasons.push({ points: 8, words: 'Links written as for a forum or a web page' })
  return reasons
}

function ofRandomWords(typed: Words): Reason[] {
  const { words, random, letters } = countRandomWords(Object.values(typed).join('\n'))
  const share = random / Math.max(1, words)
  const told = `${random} of ${counted(words, 'long word')} look typed at random`
  if (letters && random >= 4 && share >= 0.5) return [{ points: 10, words: told }]
  if (letters && random >= 2) return [{ points: 8, words: told }]
  if (random >= 3 && share >= 0.5) return [{ points: 8, words: told }]
  if (random >= 2 && share >= 0.4) return [{ points: 4, words: told }]
  const name = countRandomWords(typed.name)
  if (name.words > 0 && name.random === name.words)
    return [{ points: 2, words: 'The name looks typed at random' }]
  if (isLooseWords(typed.note)) return [{ points: 4, words: 'The note is loose words, without a sentence' }]
  return []
}

function ofRepeats({ text, shortText, contact, site }: Coming): Reason[] {
  return [
    ...atLeast(SHORT_ELSEWHERE, shortText.elsewhere, count => `The same few words from ${elsewhere(count)}`),
    ...atLeast(SITE_ELSEWHERE, site.elsewhere, count => `A link to the same site from ${elsewhere(count)}`),
    ...atLeast(TEXT_ELSEWHERE, text.elsewhere, count => `Nearly the same text from ${elsewhere(count)}`),
    ...atLeast(TEXT_HERE, text.here, count => `Nearly the same text ${times(count)} from the same address`),
    ...atLeast(
      CONTACT_ELSEWHERE,
      contact.elsewhere,
      count => `The same name and address from ${elsewhere(count)}`,
    ),
    ...atLeast(
      CONTACT_HERE,
      contact.here,
      count => `The same name and address ${times(count)} from the same address on the internet`,
    ),
  ]
}

function ofBudgets({ address, network, minutes, day }: Coming['before']): Reason[] {
  const inHour = (count: number) => `${counted(count, 'request')} within the hour`
  return [
    ...atLeast(FROM_ADDRESS, address, count => `${inHour(count)} from the same address on the internet`),
    ...atLeast(FROM_NETWORK, network, count => `${inHour(count)} from the same part of the internet`),
    ...atLeast(
      IN_MINUTES,
      minutes,
      count => `${counted(count, 'request')} from everywhere within ten minutes`,
    ),
    ...atLeast(IN_A_DAY, day, count => `${counted(count, 'request')} from everywhere within a day`),
  ]
}

/** The reason with the points of the highest step that a count reaches; none below the first. */
function atLeast(steps: Steps, count: number, words: (count: number) => string): Reason[] {
  const points = steps.findLast(([from]) => count >= from)?.[1]
  return points === undefined ? [] : [{ points, words: words(count) }]
}

function counted(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? '' : 's'}`
}

function elsewhere(count: number): string {
  return count === 1 ? 'another address on the internet' : `${count} other addresses on the internet`
}

function times(count: number): string {
  return count === 1 ? 'once before' : `${count} times before`
}

function secondsInWords(seconds: number): string {
  return seconds === 0 ? 'less than a second' : counted(seconds, 'second')
}
