import type { Kysely } from 'kysely'
import type { Business } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import type { Language } from '../language/language.ts'
import { smsSize } from '../lib/sms.ts'
import { textWords } from '../outbox/text-words.ts'
import {
  blanksOf,
  type Changeable,
  fillBlanks,
  LANGUAGES,
  type MessageWords,
  startWords,
} from '../outbox/words.ts'
import type { Sample } from './words-sample.ts'

const LONGEST = 1000
const MOST_PARTS = 2

/** What a sentence is to say in a language. */
export interface Wording {
  key: string
  language: Language
  words: string
}

/** The name of a sentence's field: the dots of its key would part it. */
export function fieldOf(key: string, language: Language): string {
  return `${language}-${key.replace('.', '-')}`
}

/** Reads the sentences of one message; one that is left empty, or as it starts, is ours again. */
export function readWords(
  fields: FormFields,
  { sentences }: MessageWords,
  business: Business,
  sample: Sample,
): FormReading<Wording[]> {
  const wordings: Wording[] = []
  for (const sentence of sentences) {
    for (const language of LANGUAGES) {
      const name = fieldOf(sentence.key, language)
      const tooLong = `That’s longer than ${LONGEST.toLocaleString('en-US')} characters.`
      const words = fields.line(name, { most: LONGEST, tooLong })
      const start = startWords(sentence, language)
      const fault = words && words !== start && faultOf(words, sentence, business, sample)
      if (fault) fields.fault(name, fault)
      wordings.push({ key: sentence.key, language, words: words === start ? '' : words })
    }
  }
  return fields.reading(wordings)
}

function faultOf(words: string, sentence: Changeable, business: Business, sample: Sample): string {
  const known = blanksOf(sentence)
  const used = [...words.matchAll(/\{([^{}]*)\}/g)].map(([, name]) => name!)
  const unknown = used.find(name => !known.includes(name))
  const blanks = known.map(name => `{${name}}`).join(', ')
  if (unknown !== undefined)
    return `{${unknown}} isn’t a blank that this message can fill. It can fill ${blanks}.`
  if (/[{}]/.test(words.replace(/\{\w+\}/g, ''))) return 'Close every { with a }.'
  if (!sentence.isText) return ''
  if (!used.includes('link')) return 'A text needs its link: put {link} where it should stand.'
  const { parts } = smsSize(
    textWords(business.name, fillBlanks(words, { ...sample, link: '{link}' }), sample.link),
  )
  return parts > MOST_PARTS ? 'That’s too long for a text. Make it shorter, or leave out emoji.' : ''
}

/** Keeps what the owner's own words are, and forgets those that are ours again. */
export async function keepWords(db: Kysely<Database>, wordings: Wording[]): Promise<void> {
  await db.transaction().execute(async trx => {
    for (const { key, language, words } of wordings) {
      if (words === '') {
        await trx
          .deleteFrom('message_words')
          .where('key', '=', key)
          .where('language', '=', language)
          .execute()
        continue
      }
      await trx
        .insertInto('message_words')
        .values({ key, language, words })
        .onConflict(conflict => conflict.columns(['key', 'language']).doUpdateSet({ words }))
        .execute()
    }
  })
}
