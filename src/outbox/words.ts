import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import { catalogue, type Key, type Translate } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import type { Params } from '../language/sentences.ts'
import { SENTENCES } from './changeable-sentences.ts'
import { LINK } from './text-words.ts'

export const LANGUAGES = ['en', 'es'] as const

/** A sentence that may be changed: by its key, what it is for the owner, and whether it is a text message. */
export interface Changeable {
  key: Key
  label: string
  isText: boolean
}

/** The sentences of one message, which are changed together. */
export interface MessageWords {
  name: string
  heading: string
  sentences: Changeable[]
}

export const CHANGEABLE: MessageWords[] = SENTENCES.map(([name, heading, sentences]) => ({
  name,
  heading,
  sentences: sentences.map(([key, label]) => ({ key, label, isText: label.startsWith('Text') })),
}))

/** The sentence as it is without the owner's own words; a text has the place of its link in it. */
export function startWords({ key, isText }: Changeable, language: Language): string {
  const sentence = catalogue[language][key]
  return isText ? `${sentence} ${LINK}` : sentence
}

/** The blanks that a sentence may have: its own, and those that every message knows. */
export function blanksOf({ key, isText }: Changeable): string[] {
  const own = [...catalogue.en[key].matchAll(/\{(\w+)\}/g)].map(([, name]) => name!)
  return [...new Set([...own, 'number', 'business', ...(isText ? ['link'] : [])])]
}

/** The owner's own words in one language, by key. */
export type OwnWords = ReadonlyMap<string, string>

export async function findOwnWords(db: Kysely<Database>, language: Language): Promise<OwnWords> {
  const rows = await db
    .selectFrom('message_words')
    .select(['key', 'words'])
    .where('language', '=', language)
    .execute()
  return new Map(rows.map(({ key, words }) => [key, words]))
}

/** Tells sentences in the owner's own words where there are any; `known` are the blanks that every message knows. */
export function inOwnWords(t: Translate, own: OwnWords, known: Params): Translate {
  return (key, params) => {
    const words = own.get(key)
    return words === undefined ? t(key, params) : fillBlanks(words, { ...known, ...params })
  }
}

/** Fills blanks in; one that isn't known, as the link's, stays. */
export function fillBlanks(words: string, params: Params): string {
  return words.replace(/\{(\w+)\}/g, (whole, name: string) => String(params[name] ?? whole))
}
