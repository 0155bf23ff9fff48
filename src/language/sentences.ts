import type { Language } from './language.ts'

/** What the file of a feature exports: its sentences by their keys, in every language. */
export type Sentences<Key extends string = string> = Record<Language, Record<Key, string>>

/** The keys of one feature's sentences, or of any of several. */
export type KeyOf<Feature extends Sentences> = Feature extends Sentences
  ? keyof Feature['en'] & string
  : never

export type Params = Record<string, string | number>

/** The sentence of a key in a language, with its {params} filled in. */
export type Tell<Key extends string> = (language: Language, key: Key, params?: Params) => string

/** Puts the sentences of several features together. */
export function together<Features extends Sentences[]>(
  ...features: Features
): Sentences<KeyOf<Features[number]>> {
  return {
    en: Object.assign({}, ...features.map(({ en }) => en)),
    es: Object.assign({}, ...features.map(({ es }) => es)),
  }
}

/**
 * A `t` of these sentences alone: what imports this and one feature is bundled without the others.
 * @throws when there is no such sentence, as a page's key isn't checked by tsc: it must never show a bare key
 */
export function tOf<Key extends string>(sentences: Sentences<Key>): Tell<Key> {
  return (language, key, params = {}) => {
    const sentence: string | undefined = sentences[language][key]
    if (sentence === undefined) throw new Error(`The catalogue has no message '${key}' in ${language}`)
    return sentence.replace(/\{(\w+)\}/g, (whole, name: string) => String(params[name] ?? whole))
  }
}
