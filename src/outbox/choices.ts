import type { Kysely } from 'kysely'
import type { MessageChoiceTable } from '../db/schema/letters.ts'
import type { Database } from '../db/schema.ts'
import type { HeldMessage, MessageKind } from './kinds.ts'

export type Choice = MessageChoiceTable['choice']

/** Messages that are switched together: which, in words for the owner, and how they go until somebody chooses. */
export interface Switch {
  name: string
  kinds: (MessageKind | HeldMessage)[]
  words: string
  starts: Choice
  /** Of those that the clock writes: after or before so many days. */
  days?: { words: string; starts: number }
}

export const TO_HOMEOWNERS: Switch[] = [
  { name: 'received', kinds: ['request-received'], words: 'We have your request', starts: 'on' },
  {
    name: 'was-it-you',
    kinds: ['was-it-you'],
    words: 'A request may be junk: was it you?',
    starts: 'on',
  },
  {
    name: 'visit',
    kinds: ['visit-set', 'visit-off', 'visit-times'],
    words: 'A visit is set, moved, or canceled, or there are times to pick from',
    starts: 'on',
  },
  { name: 'visit-tomorrow', kinds: ['visit-tomorrow'], words: 'The day before a visit', starts: 'on' },
  {
    name: 'price',
    kinds: ['quote-ready', 'change-withdrawn'],
    words: 'The price is ready, or you take a change back',
    starts: 'on',
  },
  {
    name: 'follow-up',
    kinds: ['follow-up'],
    words: 'A price got no answer',
    starts: 'off',
    days: { words: 'Days without an answer', starts: 4 },
  },
  {
    name: 'expiring',
    kinds: ['expiring'],
    words: 'A price is about to expire',
    starts: 'off',
    days: { words: 'Days before it expires', starts: 3 },
  },
  { name: 'accepted', kinds: ['accepted'], words: 'A price was accepted, without a day yet', starts: 'off' },
  {
    name: 'asked',
    kinds: ['day-asked', 'day-declined', 'day-hold-ended'],
    words: 'A day is asked for, you can’t do it, or it wasn’t confirmed in time',
    starts: 'on',
  },
  { name: 'week', kinds: ['week-chosen'], words: 'A week is booked, its day isn’t picked yet', starts: 'on' },
  { name: 'booked', kinds: ['day-booked'], words: 'A work day is booked', starts: 'on' },
  { name: 'moved', kinds: ['day-moved'], words: 'A work day is moved', starts: 'on' },
  { name: 'rain', kinds: ['rain-moved'], words: 'A work day is moved because of rain', starts: 'on' },
  { name: 'work-tomorrow', kinds: ['work-tomorrow'], words: 'The day before a work day', starts: 'on' },
  { name: 'deposit', kinds: ['deposit-received'], words: 'A deposit is received', starts: 'on' },
  {
    name: 'bill',
    kinds: ['bill', 'bill-credited'],
    words: 'The bill, or a credit memo that cancels it',
    starts: 'on',
  },
  { name: 'payment', kinds: ['payment-received'], words: 'A payment is received', starts: 'on' },
  { name: 'check-returned', kinds: ['check-returned'], words: 'A check came back', starts: 'on' },
  {
    name: 'given-back',
    kinds: ['given-back'],
    words: 'Money is given back, or kept as credit',
    starts: 'on',
  },
  { name: 'canceled', kinds: ['canceled'], words: 'A request is canceled', starts: 'on' },
  {
    name: 'turned-down',
    kinds: ['turned-down', 'taken-back'],
    words: 'You turn a request down, or take that back',
    starts: 'on',
  },
]

export const TO_STAFF: Switch[] = [
  { name: 'staff-new', kinds: ['request-arrived'], words: 'A new request', starts: 'on' },
  {
    name: 'staff-held',
    kinds: ['held-staff'],
    words: 'Something new is held as maybe junk (once a day)',
    starts: 'on',
  },
  {
    name: 'staff-note',
    kinds: ['note-staff', 'question-staff', 'change-asked-staff'],
    words: 'A note, a question, photos, a new phone number, or a change your crew asks for',
    starts: 'on',
  },
  {
    name: 'staff-accepted',
    kinds: ['accepted-staff', 'day-booked-staff', 'day-asked-staff', 'week-chosen-staff'],
    words: 'Accepted, or a day or a week booked, or a day asked for',
    starts: 'on',
  },
  {
    name: 'staff-moved',
    kinds: ['day-moved-staff', 'visit-staff', 'unsuited-staff'],
    words: 'A homeowner picks or moves a visit or a day, or says it doesn’t suit them',
    starts: 'on',
  },
  { name: 'staff-declined', kinds: ['not-taken-staff'], words: 'Declined', starts: 'on' },
  { name: 'staff-canceled', kinds: ['called-off-staff'], words: 'Canceled', starts: 'on' },
]

/** How messages of a kind go; those without a switch always do. */
export async function choiceOf(db: Kysely<Database>, kind: MessageKind | HeldMessage): Promise<Choice> {
  const found = [...TO_HOMEOWNERS, ...TO_STAFF].find(({ kinds }) => kinds.includes(kind))
  if (!found) return 'on'
  const row = await db
    .selectFrom('message_choice')
    .select('choice')
    .where('name', '=', found.name)
    .executeTakeFirst()
  return row?.choice ?? found.starts
}

/** What stands for every switch, by its name; `days` is null of those that have none. */
export type Choices = Record<string, { choice: Choice; days: number | null }>

export async function findChoices(db: Kysely<Database>): Promise<Choices> {
  const rows = await db.selectFrom('message_choice').selectAll().execute()
  const chosen = new Map(rows.map(row => [row.name, row]))
  return Object.fromEntries(
    [...TO_HOMEOWNERS, ...TO_STAFF].map(({ name, starts, days }) => {
      const row = chosen.get(name)
      return [name, { choice: row?.choice ?? starts, days: row?.days ?? days?.starts ?? null }]
    }),
  )
}

/** Keeps what the owner chose, of every switch at once. */
export async function changeChoices(db: Kysely<Database>, choices: Choices): Promise<void> {
  const rows = Object.entries(choices).map(([name, chosen]) => ({ name, ...chosen }))
  await db
    .insertInto('message_choice')
    .values(rows)
    .onConflict(conflict =>
      conflict.column('name').doUpdateSet(eb => ({
        choice: eb.ref('excluded.choice'),
        days: eb.ref('excluded.days'),
      })),
    )
    .execute()
}
