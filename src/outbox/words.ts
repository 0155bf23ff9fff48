import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import { catalogue, type Key, type Translate } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import type { Params } from '../language/sentences.ts'
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

const UNCONFIRMED = 'Email, before the address is confirmed'

/** By message, each sentence with its label. */
const SENTENCES: [name: string, heading: string, sentences: [key: Key, label: string][]][] = [
  [
    'greeting',
    'Greeting',
    [
      ['mail.hello', 'With the name'],
      ['mail.hello-nobody', 'Before the address is confirmed'],
    ],
  ],
  [
    'received',
    'We have your request',
    [
      ['mail.received-subject', 'Subject'],
      ['mail.received', 'Email'],
      ['mail.received-one', 'Email, if you answer by the next day'],
      ['mail.received-range', 'The price range'],
      ['mail.received-no-range', 'Without a price range'],
      ['text.received', 'Text'],
    ],
  ],
  [
    'receipt',
    'What you sent',
    [
      ['mail.receipt-subject', 'Subject'],
      ['mail.receipt', 'Email'],
    ],
  ],
  [
    'visit',
    'A visit is set or moved',
    [
      ['mail.visit-subject', 'Subject'],
      ['mail.visit-moved-subject', 'Subject, when it’s moved'],
      ['mail.visit', 'Email'],
      ['mail.visit-no-place', UNCONFIRMED],
      ['text.visit', 'Text'],
    ],
  ],
  [
    'visit-times',
    'Times to pick from',
    [
      ['visits.times-subject', 'Subject'],
      ['visits.times', 'Email'],
      ['text.visit-times', 'Text'],
    ],
  ],
  [
    'visit-off',
    'A visit is canceled',
    [
      ['mail.visit-off-subject', 'Subject'],
      ['mail.visit-off', 'Email'],
      ['text.visit-off', 'Text'],
    ],
  ],
  [
    'visit-tomorrow',
    'The day before a visit',
    [
      ['remind.visit-subject', 'Subject'],
      ['remind.visit', 'Email'],
      ['remind.visit-no-place', UNCONFIRMED],
      ['text.visit-tomorrow', 'Text'],
    ],
  ],
  [
    'price',
    'The price is ready',
    [
      ['mail.quote-subject', 'Subject'],
      ['mail.quote', 'Email'],
      ['mail.quote-no-place', UNCONFIRMED],
      ['mail.quote-again', 'Email, a newer price'],
      ['mail.quote-again-no-place', 'A newer price, before the address is confirmed'],
      ['text.quote', 'Text'],
      ['text.quote-again', 'Text, a newer price'],
    ],
  ],
  [
    'follow-up',
    'A price got no answer',
    [
      ['remind.follow-up-subject', 'Subject'],
      ['remind.follow-up', 'Email'],
      ['text.follow-up', 'Text'],
    ],
  ],
  [
    'expiring',
    'A price is about to expire',
    [
      ['remind.expiring-subject', 'Subject'],
      ['remind.expiring', 'Email'],
      ['text.expiring', 'Text'],
    ],
  ],
  [
    'accepted',
    'A price was accepted',
    [
      ['remind.accepted-subject', 'Subject'],
      ['remind.accepted', 'Email'],
      ['text.accepted', 'Text'],
    ],
  ],
  [
    'booked',
    'A work day is booked',
    [
      ['mail.booked-subject', 'Subject'],
      ['mail.booked', 'Email'],
      ['mail.booked-no-place', UNCONFIRMED],
      ['text.booked', 'Text'],
    ],
  ],
  [
    'moved',
    'A work day is moved',
    [
      ['moves.subject', 'Subject'],
      ['moves.mail', 'Email'],
      ['text.day-moved', 'Text'],
    ],
  ],
  [
    'rain',
    'A work day is moved because of rain',
    [
      ['moves.rain-subject', 'Subject'],
      ['moves.rain', 'Email'],
      ['text.rain-moved', 'Text'],
    ],
  ],
  [
    'work-tomorrow',
    'The day before a work day',
    [
      ['remind.work-subject', 'Subject'],
      ['remind.work', 'Email'],
      ['remind.work-no-place', UNCONFIRMED],
      ['text.work-tomorrow', 'Text'],
    ],
  ],
  [
    'deposit',
    'A deposit is received',
    [
      ['deposit.subject', 'Subject'],
      ['deposit.mail', 'Email'],
      ['deposit.brief', 'Text'],
    ],
  ],
  [
    'canceled',
    'A request is canceled',
    [
      ['mail.canceled-subject', 'Subject'],
      ['mail.canceled', 'Email'],
      ['moves.canceled-by-us', 'Email, when you cancel it'],
      ['text.canceled', 'Text'],
    ],
  ],
  [
    'turned-down',
    'You turn a request down',
    [
      ['sorry.subject', 'Subject'],
      ['sorry.mail', 'Email'],
      ['sorry.questions', 'At the end of the email'],
      ['text.turned-down', 'Text'],
    ],
  ],
  [
    'taken-back',
    'You take that back',
    [
      ['sorry.back-subject', 'Subject'],
      ['sorry.back', 'Email'],
      ['text.taken-back', 'Text'],
    ],
  ],
  [
    'offer',
    'An offer',
    [
      ['offers.subject', 'Subject'],
      ['offers.hello-again', 'Email'],
      ['offers.brief', 'Text'],
    ],
  ],
]

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
