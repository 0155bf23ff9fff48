import type { Generated, GeneratedAlways } from 'kysely'
import type { Language } from '../../language/language.ts'

/** How a message goes. */
export type Way = 'mail' | 'text'

export interface OutboxTable {
  id: string
  kind: string
  quote_request_id: number | null
  recipient: 'homeowner' | 'owner' | 'account' | 'invited' | 'held'
  made_at: string
  sent_at: string | null
  attempts: Generated<number>
  /** A word of faults.ts; beginning with 'stopped: ' or 'dropped: ' of what is given up. */
  last_fault: string | null
  way: Generated<Way>
  /** Who passed it on by hand. */
  passed_on_by: Generated<number | null>
  /** When its sending was put on last. */
  tried_from: string
  /** What it is about that is said once only, whoever notices first: as 'follow-up 12'. */
  once: Generated<string | null>
  /** To the staff, and waits for the day's summary; `digest_id` is that one, once it is written. */
  for_digest: Generated<boolean>
  digest_id: Generated<string | null>
  offer_id: Generated<number | null>
  /** To whom of the staff, where it is about their signing in. */
  account_id: Generated<number | null>
  /** To somebody who is asked to help. */
  invitation_id: Generated<number | null>
  /** To whoever sent what is held as maybe junk. */
  maybe_junk_id: Generated<number | null>
}

/** That a customer agreed to get offers one way, or not any more: the newest of a customer and a way counts. */
export interface ConsentTable {
  id: GeneratedAlways<number>
  customer_id: number
  way: Way
  given: boolean
  at: string
  by_kind: 'homeowner' | 'staff'
  account_id: number | null
  /** What was checked, said or written, word for word. */
  words: string
}

/** An offer to past customers; unsent until `sent_at`. */
export interface OfferTable {
  id: GeneratedAlways<number>
  words_en: string
  words_es: string
  made_at: string
  made_by: number
  sent_at: string | null
}

/** Who gets an offer, how, and by which request they are known. */
export interface OfferRecipientTable {
  offer_id: number
  customer_id: number
  way: Way
  quote_request_id: number
}

/** What the owner chose for a kind of message, where it isn't as it starts; see outbox/choices.ts. */
export interface MessageChoiceTable {
  name: string
  choice: 'on' | 'off' | 'daily'
  days: number | null
}

/** One row at most: what text messages are handed to; its secret is made from the key and the nonce. */
export interface TextGatewayTable {
  only: Generated<boolean>
  address: string
  nonce: string
  set_at: string
}

/** The calendar that somebody of the staff subscribes to; one a person, found by the hash of its token. */
export interface CalendarFeedTable {
  account_id: number
  nonce: string
  token_hash: string
  made_at: string
}

/** An answer that the gateway brought, so that it isn't taken twice. */
export interface TextReplyTable {
  id: string
  received_at: string
}

/** How many mails went out in an hour, of what is counted together; see letters/mail-limits.ts. */
export interface MailHourTable {
  counted: string
  hour: string
  mails: number
}

/** The owner's own words for a sentence of a message, by its key. */
export interface MessageWordsTable {
  key: string
  language: Language
  words: string
}
