import type { Kysely } from 'kysely'
import { findBooking } from '../bookings/queries.ts'
import type { Business } from '../business/queries.ts'
import type { Stage } from '../db/schema/stages.ts'
import type { Database } from '../db/schema.ts'
import { type Key, t } from '../language/catalogue.ts'
import { dayInWords, momentInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { dayOf } from '../lib/dates.ts'
import { type Closing, findClosing, nextVersion } from './queries.ts'

/** How a job stands, and what may be said of it: as Days, the request, and its own page show it. */
export interface ClosingView {
  /** 'done, with differences. Said by Hugo, March 3, 4:10 PM.'; '' while nothing was said. */
  said: string
  worked: string
  stage: Stage
  /** The version that a form would become. */
  version: number
  /** Every day booked, in words. */
  booked: string
  /** Whether all of the booked days have come, so that one tap can close it. */
  mayClose: boolean
  /** Whether the first day booked has come, so that there is something to tell. */
  hasBegun: boolean
  /** Whether its work can be told of at all, and opened again. */
  isOpen: boolean
  /** Whether it can be told how it went, or told anew. */
  mayTell: boolean
  mayReopen: boolean
  /** The last of its days that has come, whose load list takes what was driven; null where none has. */
  drivenOn: string | null
}

/** Undefined where the job was never booked. */
export async function viewClosing(
  db: Kysely<Database>,
  business: Business,
  { id, stage }: { id: number; stage: Stage },
  now: Temporal.Instant,
  language: Language,
): Promise<ClosingView | undefined> {
  if (!['booked', 'part done', 'done', 'billed', 'paid'].includes(stage)) return undefined
  const closing = await findClosing(db, id)
  const booked = (await findBooking(db, id))?.days.map(({ day }) => day) ?? []
  const last = booked.at(-1)
  const isOpen = stage === 'booked' || stage === 'part done'
  return {
    stage,
    said: closing ? sentence(t(language, 'closing.said', saidOf(closing, business, language))) : '',
    worked: closing ? workedInWords(closing, language) : '',
    version: await nextVersion(db, id),
    booked: booked.map(day => dayInWords(day, language)).join(', '),
    mayClose: isOpen && last !== undefined && last <= dayOf(now, business.time_zone),
    hasBegun: !isOpen || (booked[0] !== undefined && booked[0] <= dayOf(now, business.time_zone)),
    isOpen,
    mayTell: isOpen || stage === 'done',
    drivenOn: booked.findLast(day => day <= dayOf(now, business.time_zone)) ?? null,
    mayReopen: stage === 'part done' || stage === 'done',
  }
}

/** How it went, who said so and when. */
export function saidOf(
  { outcome, as_planned, made_at, made_by_name }: Closing,
  { time_zone }: Business,
  language: Language,
): { how: string; name: string; when: string } {
  const key: Key = as_planned ? 'closing.how-planned' : HOW[outcome as keyof typeof HOW]
  return { how: t(language, key), name: made_by_name, when: momentInWords(made_at, time_zone, language) }
}

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1)
}

const HOW = {
  done: 'closing.how-done',
  'part done': 'closing.how-part-done',
  stopped: 'closing.how-stopped',
} as const

function workedInWords({ first_day, last_day }: Closing, language: Language): string {
  const [from, to] = [first_day, last_day].map(day => dayInWords(day, language)) as [string, string]
  if (first_day === last_day) return t(language, 'closing.worked-one', { day: from })
  return t(language, 'closing.worked', { from, to })
}
