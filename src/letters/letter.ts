import { Eta } from 'eta'
import { findOwner } from '../account/queries.ts'
import { type Business, findBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { translator } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import type { CalendarEntry } from '../outbox/calendar.ts'
import { type MessageKind, OF_BILL } from '../outbox/kinds.ts'
import { isUnconfirmed, type Message, type Messages } from '../outbox/message.ts'
import type { OutboxMessage } from '../outbox/queries.ts'
import { textWords } from '../outbox/text-words.ts'
import { findOwnWords, inOwnWords } from '../outbox/words.ts'
import { findFirmOfRequest } from '../places/firms.ts'

/** What letters are written from: what the application is built from, and the writers of the rooms. */
export interface LetterDeps extends Deps {
  messages: Messages
}

/** A message as it is sent: to whom, and in all its forms. An address is '' when there is none. */
export interface Letter {
  to: { name: string; address: string }
  from: { name: string; address: string }
  subject: string
  text: string
  html: string
  entry: CalendarEntry | null
  /** Where whoever gets it can stop such mails for good; null of those that don't sell. */
  stop: string | null
  /** What a text message says, of a letter that was written for that. */
  words: string
  /** Where the business is. */
  timeZone: string
}

/** What of a letter goes by mail. */
export type Mail = Omit<Letter, 'words' | 'timeZone'>

/** What the templates of mail are given. */
export interface LetterData extends Omit<Message, 'brief' | 'entry'> {
  greeting: string
  business: Business
  language: Language
}

const VIEWS = new URL('../../views/', import.meta.url).pathname
const asHtml = new Eta({ views: VIEWS, cache: true, autoEscape: true, useWith: false })
const asText = new Eta({ views: VIEWS, cache: true, autoEscape: false, useWith: false })

/**
 * Writes a message of the outbox as things stand now; null when they have moved on and it is no longer so. `byHand` is
 * one that may go any way, as a text message: it doesn't ask to confirm the mail address.
 */
export async function writeLetter(
  deps: LetterDeps,
  row: OutboxMessage,
  { byHand = false } = {},
): Promise<Letter | null> {
  const business = await findBusiness(deps.db)
  const to = await recipientOf(deps, row)
  if (!business || !to) return null
  const language = row.recipient === 'owner' ? 'en' : row.language
  const own = await findOwnWords(deps.db, language)
  const t = inOwnWords(translator(language, business.country), own, {
    business: business.name,
    number: row.number,
  })
  const unconfirmed = isUnconfirmed(row)
  const message = await deps.messages[row.kind as MessageKind]({
    deps,
    row,
    typed: unconfirmed ? null : row,
    asksToConfirm: unconfirmed && row.way === 'mail' && !byHand,
    business,
    language,
    t,
  })
  if (!message) return null
  const greeting = to.name ? t('mail.hello', { name: to.name }) : t('mail.hello-nobody')
  return {
    ...laidOut(deps, message, { to, greeting, business, language }),
    words: textWords(business.name, message.brief, message.link?.address),
    timeZone: business.time_zone,
  }
}

/** What is around a message: to whom it goes, in which words, and from whom. */
export interface Envelope {
  to: Letter['to']
  greeting: string
  business: Business
  language: Language
}

/** A message laid out as mail, as text and as HTML. */
export function laidOut(deps: Deps, message: Message, { to, ...around }: Envelope): Mail {
  const { business } = around
  const { brief: _, entry, ...told } = message
  const data: LetterData = { ...told, ...around }
  return {
    to: { ...to, name: oneLine(to.name) },
    from: { name: oneLine(business.name), address: senderAddress(deps, business) },
    subject: oneLine(message.subject),
    text: asText.render('mail/message.txt.eta', data),
    html: asHtml.render('mail/message.html.eta', data),
    entry: entry ?? null,
    stop: message.selling?.stop ?? null,
  }
}

async function recipientOf(deps: Deps, row: OutboxMessage) {
  if (row.recipient === 'homeowner') {
    const isOfBill = OF_BILL.includes(row.kind as MessageKind)
    const firm = isOfBill ? await findFirmOfRequest(deps.db, row.request_id) : undefined
    if (firm?.bill_email) return { name: oneLine(firm.bill_name), address: firm.bill_email }
    return { name: isUnconfirmed(row) ? '' : oneLine(row.name), address: row.email }
  }
  const owner = await findOwner(deps.db)
  return owner && { name: oneLine(owner.name), address: owner.email }
}

function senderAddress({ config }: Deps, business: Business): string {
  return business.email || `no-reply@${new URL(config.publicUrl).hostname}`
}

// A line break in a name must never begin a header of its own.
function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ').trim()
}
