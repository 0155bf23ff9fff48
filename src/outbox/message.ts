import type { Selectable } from 'kysely'
import type { BusinessTable } from '../db/schema/business.ts'
import type { Deps } from '../deps.ts'
import type { Translate } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import type { CalendarEntry } from './calendar.ts'
import type { MessageKind } from './kinds.ts'
import type { OutboxMessage } from './queries.ts'

/** What a message says, before it is laid out as text and as HTML. */
export interface Message {
  subject: string
  paragraphs: string[]
  facts: { term: string; value: string }[]
  link: { words: string; address: string } | null
  /** The same in a few words, for a text message: with nothing in it that anybody typed, and without the link. */
  brief: string
  /** What the mail puts into the homeowner’s calendar, or takes out of it. */
  entry?: CalendarEntry | undefined
  /** Of a mail that sells: what the law has it say at its end. */
  selling?: Selling | undefined
}

/** Why somebody gets it, where the business is, and the address at which it can be stopped for good. */
export interface Selling {
  why: string
  postalAddress: string
  stopWords: string
  stop: string
}

/** What somebody typed who may be anybody. */
type Typed = 'name' | 'street' | 'postcode' | 'note'

/** What a message is about, and in whose words. */
export interface About {
  deps: Deps
  row: Omit<OutboxMessage, Typed | 'phone' | 'email'>
  /** What was typed into the form; null unless it goes to the address's confirmed owner: nobody is mailed a stranger's words. */
  typed: Pick<OutboxMessage, Typed> | null
  /** Whether it asks to confirm the address: by mail alone, since only a mail shows whose the address is. */
  asksToConfirm: boolean
  business: Selectable<BusinessTable>
  language: Language
  t: Translate
}

/** Writes one message as things stand; null when they have moved on and it would say what is no longer so. */
export type WriteMessage = (about: About) => Promise<Message | null>

/** Whether a message goes to an address that anybody may have typed. */
export function isUnconfirmed({
  recipient,
  email_confirmed_at,
}: Pick<OutboxMessage, 'recipient' | 'email_confirmed_at'>): boolean {
  return recipient === 'homeowner' && email_confirmed_at === null
}

/** The writer of every kind. */
export type Messages = Record<MessageKind, WriteMessage>

/** To the staff. Says no more than which request it is: the rest is behind the sign-in, and mailboxes get read by others. */
export function forStaff({ deps, row }: About, subject: string, sentence: string): Message {
  const link = { words: 'Open the request', address: `${deps.config.publicUrl}/queue/${row.number}` }
  return { subject, paragraphs: [sentence], facts: [], link, brief: subject }
}
