import { findBusiness } from '../business/queries.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { mailto, sms } from '../lib/contact-links.ts'
import { type ByHand, isStale, waysByHand } from '../outbox/by-hand.ts'
import { BY_OWNER, isStopped } from '../outbox/given-up.ts'
import { kindInWords } from '../outbox/kind-words.ts'
import type { MessageKind } from '../outbox/kinds.ts'
import { isUnconfirmed } from '../outbox/message.ts'
import { findSettled, findUnsent, type OutboxMessage } from '../outbox/queries.ts'
import { faultInWords, QUIET_HOURS } from './faults.ts'
import { DAYTIME, isWithin } from './hours.ts'
import { isTooOld } from './jobs.ts'
import { type LetterDeps, writeLetter } from './letter.ts'
import { whyOvertaken } from './overtaken.ts'

const SHOWN = 200
const SETTLED_SHOWN = 50

/** Where a message stands. */
type Part = 'byHand' | 'waiting' | 'failed' | 'sent' | 'dropped'

/** A message as the outbox shows it; what was sent, or can't be of use any more, is not written again. */
export interface OutboxEntry {
  id: string
  number: string
  /** Whether the request’s person was erased: nothing of it can be opened or sent again. */
  isErased: boolean
  what: string
  toName: string
  madeAt: string
  state: string
  /** Whether it goes to an address that isn't confirmed, so that it holds nothing of what was typed. */
  unconfirmed: boolean
  /** Its text to be passed on by hand, as it goes: a text message in a few words, a mail whole. */
  text: string | null
  /** Opens the message in the owner's own mail program, or as a text message on a phone. */
  mailto: string | null
  sms: string | null
  mayTryAgain: boolean
}

export type OutboxPage = Record<Part, OutboxEntry[]> & { request: string | null }

/** The messages, of one request or of all. Without a mail server the owner's own are left out: the queue says the same. */
export async function readOutbox(deps: LetterDeps, request: string | null): Promise<OutboxPage> {
  const zone = (await findBusiness(deps.db))?.time_zone ?? 'UTC'
  const byHand = await waysByHand(deps)
  const page: OutboxPage = { byHand: [], waiting: [], failed: [], sent: [], dropped: [], request }
  const unsent = await findUnsent(deps.db, { request, limit: SHOWN })
  const settled = { request, limit: SETTLED_SHOWN }
  const rows = [
    ...unsent,
    ...(await findSettled(deps.db, settled, 'sent')),
    ...(await findSettled(deps.db, settled, 'dropped')),
  ]
  for (const row of rows) {
    if (!row.sent_at && byHand.mail && row.recipient === 'owner') continue
    const { part, entry } = await entryOf(deps, row, byHand, zone)
    page[part].push(entry)
  }
  return page
}

async function entryOf(deps: LetterDeps, row: OutboxMessage, byHand: ByHand, zone: string) {
  const given = partOf(row, byHand, deps.now())
  const isOpen = given !== 'sent' && given !== 'dropped'
  const letter = isOpen ? await writeLetter(deps, row, { byHand: true }) : null
  const part: Part = isOpen && !letter ? 'dropped' : given
  const toHomeowner = row.recipient === 'homeowner'
  const mail = letter && toHomeowner ? await writeLetter(deps, row) : null
  const isNight = row.kind === 'offer' && !isWithin(deps.now(), zone, DAYTIME)
  const entry: OutboxEntry = {
    id: row.id,
    number: row.number,
    isErased: row.is_erased,
    what: kindInWords(row.kind as MessageKind),
    toName: toHomeowner ? row.name : 'you',
    madeAt: momentInWords(row.made_at, zone, 'en'),
    state:
      isOpen && !letter
        ? faultInWords(await whyOvertaken(deps, row), 0)
        : stateOf(row, part, byHand, deps.now(), zone),
    unconfirmed: row.way === 'mail' && isUnconfirmed(row),
    text: letter && (row.way === 'text' ? letter.words : letter.text),
    mailto: mail && row.way === 'mail' ? mailto(mail.to.address, mail.subject, mail.text) : null,
    // By hand too, what sells may not come at night.
    sms: letter && toHomeowner && !isNight ? sms(row.phone, letter.words) : null,
    mayTryAgain: part === 'failed' || (part === 'dropped' && row.last_fault === BY_OWNER && !row.is_erased),
  }
  return { part, entry }
}

function partOf(row: OutboxMessage, byHand: ByHand, now: Temporal.Instant): Part {
  if (row.sent_at) return 'sent'
  if (row.last_fault?.startsWith('dropped')) return 'dropped'
  if (isStopped(row.last_fault)) return 'failed'
  if (row.for_digest) return 'waiting'
  if (byHand[row.way]) return isStale(row, now) ? 'dropped' : 'byHand'
  return isTooOld(row, now) ? 'failed' : 'waiting'
}

function stateOf(
  row: OutboxMessage,
  part: Part,
  byHand: ByHand,
  now: Temporal.Instant,
  zone: string,
): string {
  if (row.sent_at) {
    const when = momentInWords(row.sent_at, zone, 'en')
    return row.passed_on_by ? `Passed on ${when}` : `Sent ${when}`
  }
  if (part === 'byHand')
    return row.kind === 'offer' && !isWithin(now, zone, DAYTIME) ? faultInWords(QUIET_HOURS, 0) : ''
  if (part === 'dropped' && row.last_fault === null && isStale(row, now) && byHand[row.way])
    return 'Not passed on within two weeks.'
  if (part === 'waiting' && row.for_digest) return 'Goes out with the day’s summary.'
  if (part === 'failed' && !isStopped(row.last_fault))
    return 'Not sent within three days, so we stopped trying.'
  return faultInWords(row.last_fault, row.attempts)
}
