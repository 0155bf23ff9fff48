import type { MessageKind } from '../outbox/kinds.ts'

/** The hours of the day, where the business is, in which the clock writes to people: from the first to before the last. */
export const REMINDED = { from: 10, to: 20 }
/** In which what the clock wrote may still go out. For what sells, 47 CFR 64.1200(c)(1) names these. */
export const DAYTIME = { from: 8, to: 21 }
/** From when on the staff get the day's summary. */
export const DIGEST_FROM = 7

const KEEPS_HOURS: MessageKind[] = ['visit-tomorrow', 'work-tomorrow', 'follow-up', 'expiring', 'offer']

/** Whether a message goes out in the daytime only. */
export function keepsHours(kind: string): boolean {
  return KEEPS_HOURS.some(one => one === kind)
}

/** Whether it is within these hours in a time zone, by the clock on the wall there. */
export function isWithin(at: Temporal.Instant, timeZone: string, { from, to }: typeof DAYTIME): boolean {
  const { hour } = at.toZonedDateTimeISO(timeZone)
  return hour >= from && hour < to
}

/** The moment at which an hour of a day, 'YYYY-MM-DD', begins in a time zone; the next one there is where it is left out. */
export function momentOf(day: string, hour: number, timeZone: string): Temporal.Instant {
  return Temporal.PlainDate.from(day)
    .toZonedDateTime({ timeZone, plainTime: Temporal.PlainTime.from({ hour }) })
    .toInstant()
}
