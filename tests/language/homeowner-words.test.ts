import { describe, expect, test } from 'vitest'
import { starterFinishes } from '../../src/estimate/starter/starter.ts'
import { siteExtras, starterExtras } from '../../src/estimate/starter/starter-extras.ts'
import { catalogue } from '../../src/language/catalogue.ts'
import type { Language } from '../../src/language/language.ts'
import type { Sentences } from '../../src/language/sentences.ts'
import { inEnglish, inSpanish, type WordOfOurs } from './words-of-ours.ts'

const MOST_WORDS = 25

// Signing in, the page Days, the rates, what is on hand, load lists and job sheets are the staff's, and so are these of what they are refused.
const STAFF = /^(?:account|days|staff|rates|hand|loads|sheet|orders|dig|closing)\./
const STAFFS_OWN = new Set([
  'error.stage',
  'error.owner-only',
  'error.again',
  'error.erased',
  'requests.narrower',
  'quote.overtaken',
  'quote.taken',
  'quote.basis',
  'quote.unreadable',
  'quote.none',
  'quote.visit-set',
  'quote.visit-first',
  'quote.look',
])
const isHomeowners = (key: string) => !STAFF.test(key) && !STAFFS_OWN.has(key)

const { en, es }: Sentences = catalogue
const started = (['us', 'metric'] as const).flatMap(units => [
  ...starterFinishes(units),
  ...starterExtras(units),
  ...siteExtras(units),
])

/** What homeowners read in a language, by where it stands: sentences, and the names that a rate table starts with. */
function readIn(language: Language): [where: string, text: string][] {
  const names = started.map(({ slug, name }): [string, string] => [slug, name[language]])
  const sentences = Object.entries(language === 'en' ? en : es).filter(([key]) => isHomeowners(key))
  return [...sentences, ...names]
}

/** The sentences of a text: one ends at . ? ! or a line's end; not at a point in 3.8, nor where a letter follows. */
function sentencesOf(text: string): string[] {
  return text.split(/(?<=[.?!][”»)]?)\s+|\n/).filter(sentence => /\p{L}/u.test(sentence))
}

function wordsOf(sentence: string): number {
  return sentence
    .replace(/\{\w+\}/g, 'token')
    .split(/\s+/)
    .filter(word => /[\p{L}\p{N}]/u.test(word)).length
}

function withWordsOfOurs(language: Language, ours: WordOfOurs[]) {
  return readIn(language).flatMap(([where, text]) => {
    const said = text.replace(/\{\w+\}/g, '{}')
    return ours
      .filter(({ word }) => word.test(said))
      .map(({ word, instead }) => `${where}: ${word.exec(said)![0]} (${instead})`)
  })
}

test('sentences and words are counted as people count them', () => {
  expect(sentencesOf('Write 3.8 m. Is that right? Say “yes.” Go on\nNow')).toEqual([
    'Write 3.8 m.',
    'Is that right?',
    'Say “yes.”',
    'Go on',
    'Now',
  ])
  expect(wordsOf('About {volume} × {area}, 12 1/2 ft')).toBe(6)
})

describe.each(['en', 'es'] as const)('what homeowners read in %s', language => {
  test('is much', () => expect(readIn(language).length).toBeGreaterThan(300))

  test(`has no sentence of more than ${MOST_WORDS} words`, () => {
    const long = readIn(language).flatMap(([where, text]) =>
      sentencesOf(text)
        .filter(sentence => wordsOf(sentence) > MOST_WORDS)
        .map(sentence => `${where}: ${wordsOf(sentence)} words: ${sentence}`),
    )
    expect(long).toEqual([])
  })

  test('has no word of ours', () => {
    expect(withWordsOfOurs(language, language === 'en' ? inEnglish : inSpanish)).toEqual([])
  })
})

test('the words of ours are found where they stand, and nowhere else', () => {
  const found = (ours: WordOfOurs[], text: string) => ours.some(({ word }) => word.test(text))
  for (const text of [
    'We dress your beds',
    'Please ring us',
    'The finish',
    'Mail address',
    'the ZIP',
    'in metres',
  ])
    expect([text, found(inEnglish, text)]).toEqual([text, true])
  for (const text of [
    'Ring around a tree',
    'back to finish it',
    'Email address',
    'an envelope',
    'We’ll call you',
  ])
    expect([text, found(inEnglish, text)]).toEqual([text, false])
  for (const text of ['Sus macizos', 'El margen', 'El acabado', 'Añadir', 'Traslado y viaje'])
    expect([text, found(inSpanish, text)]).toEqual([text, true])
})
