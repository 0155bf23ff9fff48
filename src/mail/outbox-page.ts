import { findBusiness } from '../account/queries.ts'
import type { Deps } from '../deps.ts'
import { momentInWords } from '../lib/dates.ts'
import { faultInWords, isStopped } from './faults.ts'
import { TRIED_FOR } from './jobs.ts'
import { type Letter, writeLetter } from './letter.ts'
import { findOutbox, type OutboxMessage } from './queries.ts'

const SHOWN = 100

/** A message as the outbox shows it; what was sent is not written again. */
export interface OutboxEntry {
  id: string
  number: string
  toName: string
  madeAt: string
  state: string
  needsCare: boolean
  letter: Letter | null
  /** Opens the message in the owner's own mail program, or as a text message on a phone. */
  mailto: string | null
  sms: string | null
}

/** The newest messages: those that wait or were given up with their text to pass on by hand, and those sent. */
export async function readOutbox(deps: Deps): Promise<{ waiting: OutboxEntry[]; sent: OutboxEntry[] }> {
  const business = await findBusiness(deps.db)
  const rows = await findOutbox(deps.db, SHOWN)
  const zone = business?.time_zone ?? 'UTC'
  const entries: OutboxEntry[] = []
  for (const row of rows) entries.push(await entryOf(deps, row, zone))
  const isSent = (_: OutboxEntry, index: number) => rows[index]!.sent_at !== null
  return { sent: entries.filter(isSent), waiting: entries.filter((entry, index) => !isSent(entry, index)) }
}

async function entryOf(deps: Deps, row: OutboxMessage, zone: string): Promise<OutboxEntry> {
  const letter = row.sent_at ? null : await writeLetter(deps, row)
  const toHomeowner = row.recipient === 'homeowner'
  return {
    id: row.id,
    number: row.number,
    toName: toHomeowner ? row.name : 'you',
    madeAt: momentInWords(row.made_at, zone, 'en'),
    state: stateOf(deps, row, zone),
    needsCare: isStopped(row.last_fault),
    letter,
    mailto: letter && toHomeowner && letter.to.address ? mailtoOf(letter) : null,
    sms: letter && toHomeowner && row.phone ? smsOf(row.phone, letter) : null,
  }
}

function stateOf({ config, now }: Deps, row: OutboxMessage, zone: string): string {
  if (row.sent_at) return `Sent ${momentInWords(row.sent_at, zone, 'en')}`
  if (isStopped(row.last_fault)) return faultInWords(row.last_fault, row.attempts)
  const tooOld = Temporal.Instant.compare(row.made_at, now().subtract(TRIED_FOR)) < 0
  if (tooOld) return 'Not sent, and too old to be sent by itself now.'
  return config.smtpUrl ? faultInWords(row.last_fault, row.attempts) : 'Waits: there is no mail server.'
}

function mailtoOf({ to, subject, text }: Letter): string {
  return `mailto:${encodeURIComponent(to.address)}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(text)}`
}

function smsOf(phone: string, { text }: Letter): string {
  return `sms:${phone.replace(/[^+\d]/g, '')}?body=${encodeURIComponent(text)}`
}
