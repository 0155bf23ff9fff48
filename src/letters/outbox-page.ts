import { findBusiness } from '../business/queries.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { mailto, sms } from '../lib/contact-links.ts'
import { isUnconfirmed } from '../outbox/message.ts'
import { findOutbox, type OutboxMessage } from '../outbox/queries.ts'
import { faultInWords, isStopped, OUT_OF_DATE } from './faults.ts'
import { TRIED_FOR } from './jobs.ts'
import { type Letter, type LetterDeps, writeLetter } from './letter.ts'

const SHOWN = 200

/** A message as the outbox shows it; what was sent, or can't be of use any more, is not written again. */
export interface OutboxEntry {
  id: string
  number: string
  toName: string
  madeAt: string
  state: string
  needsCare: boolean
  /** Whether it goes to an address that isn't confirmed, so that it holds nothing of what was typed. */
  unconfirmed: boolean
  /** Its text to be passed on by hand, whichever way. */
  letter: Letter | null
  /** Opens the message in the owner's own mail program, or as a text message on a phone. */
  mailto: string | null
  sms: string | null
}

export interface OutboxPage {
  /** Not sent: to be passed on by hand, or about to be sent. */
  waiting: OutboxEntry[]
  /** Not sent, and too old or overtaken to be of use. */
  past: OutboxEntry[]
  sent: OutboxEntry[]
}

/** The newest messages. Without a mail server the owner's own are left out: the queue says the same. */
export async function readOutbox(deps: LetterDeps): Promise<OutboxPage> {
  const business = await findBusiness(deps.db)
  const zone = business?.time_zone ?? 'UTC'
  const page: OutboxPage = { waiting: [], past: [], sent: [] }
  for (const row of await findOutbox(deps.db, SHOWN)) {
    if (!row.sent_at && !deps.config.smtpUrl && row.recipient === 'owner') continue
    const entry = await entryOf(deps, row, zone)
    const part = row.sent_at ? page.sent : entry.letter ? page.waiting : page.past
    part.push(entry)
  }
  return page
}

async function entryOf(deps: LetterDeps, row: OutboxMessage, zone: string): Promise<OutboxEntry> {
  const letter = row.sent_at || isOld(deps, row) ? null : await writeLetter(deps, row, { byHand: true })
  const toHomeowner = row.recipient === 'homeowner'
  const mail = letter && toHomeowner ? await writeLetter(deps, row) : null
  return {
    id: row.id,
    number: row.number,
    toName: toHomeowner ? row.name : 'you',
    madeAt: momentInWords(row.made_at, zone, 'en'),
    state: stateOf(deps, row, zone, letter),
    needsCare: isStopped(row.last_fault),
    unconfirmed: isUnconfirmed(row),
    letter,
    mailto: mail && mailto(mail.to.address, mail.subject, mail.text),
    sms: letter && toHomeowner ? sms(row.phone, letter.text) : null,
  }
}

function isOld({ now }: LetterDeps, row: OutboxMessage): boolean {
  return Temporal.Instant.compare(row.made_at, now().subtract(TRIED_FOR)) < 0
}

function stateOf(deps: LetterDeps, row: OutboxMessage, zone: string, letter: Letter | null): string {
  if (row.sent_at) return `Sent ${momentInWords(row.sent_at, zone, 'en')}`
  if (isStopped(row.last_fault)) return faultInWords(row.last_fault, row.attempts)
  if (isOld(deps, row)) return 'Not sent within three days, so we stopped trying.'
  if (!letter) return faultInWords(OUT_OF_DATE, 0)
  return faultInWords(row.last_fault, row.attempts)
}
