import ical, {
  ICalAttendeeRole,
  ICalCalendarMethod,
  type ICalEventData,
  ICalEventStatus,
  ICalEventTransparency,
} from 'ical-generator'

/** A moment and how long it takes; or whole days, the last one included. */
export type When = { startsAt: Temporal.Instant; minutes: number } | { day: string; lastDay: string }

/**
 * One entry of a calendar. `uid` stays through all that becomes of it, and `sequence` goes up with every change, so that
 * a calendar takes the later one for an update (RFC 5545, section 3.8.7.4).
 */
export interface CalendarEntry {
  uid: string
  sequence: number
  when: When
  isCanceled: boolean
  summary: string
  /** Where it is, or ''. */
  location: string
  /** The page that tells more, or ''. */
  link: string
}

/** Whose entries they are, and whom a mail with them goes to. */
export interface Correspondents {
  from: { name: string; address: string }
  to: { name: string; address: string }
}

/** One entry as a mail carries it: as a request, or as the cancellation of one (RFC 5546, sections 3.2.2 and 3.2.5). */
export function mailedEntry(entry: CalendarEntry, { from, to }: Correspondents, now: Temporal.Instant) {
  const method = entry.isCanceled ? ICalCalendarMethod.CANCEL : ICalCalendarMethod.REQUEST
  const calendar = ical({ prodId: PRODUCT, method })
  calendar.createEvent({
    ...eventOf(entry, now),
    organizer: { name: from.name, email: from.address },
    attendees: [{ email: to.address, name: to.name || undefined, rsvp: false, role: ICalAttendeeRole.REQ }],
  })
  return { method, content: calendar.toString() }
}

/** Entries to be fetched from an address: once, or again and again as a subscription with a name. */
export function publishedEntries(entries: CalendarEntry[], now: Temporal.Instant, name?: string): string {
  const calendar = ical({
    prodId: PRODUCT,
    method: ICalCalendarMethod.PUBLISH,
    ...(name === undefined ? {} : { name, ttl: HOUR_IN_SECONDS }),
  })
  for (const entry of entries) calendar.createEvent(eventOf(entry, now))
  return calendar.toString()
}

const HOUR_IN_SECONDS = 3600
const PRODUCT = { company: 'Bedwright', product: 'Bedwright', language: 'EN' }

function eventOf(
  { uid, sequence, when, isCanceled, summary, location, link }: CalendarEntry,
  now: Temporal.Instant,
) {
  const event: ICalEventData = {
    ...timesOf(when),
    id: uid,
    sequence,
    stamp: dateOf(now),
    summary,
    location: location || null,
    url: link || null,
    status: isCanceled ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
  }
  return event
}

// Moments are written in UTC, and days without any zone, whatever the zone of this machine.
function timesOf(when: When) {
  if ('startsAt' in when)
    return { start: dateOf(when.startsAt), end: dateOf(when.startsAt.add({ minutes: when.minutes })) }
  return {
    allDay: true,
    start: new Date(when.day),
    // It ends before this day (RFC 5545, section 3.6.1).
    end: new Date(Temporal.PlainDate.from(when.lastDay).add({ days: 1 }).toString()),
    transparency: ICalEventTransparency.TRANSPARENT,
  }
}

function dateOf(instant: Temporal.Instant): Date {
  return new Date(instant.epochMilliseconds)
}
