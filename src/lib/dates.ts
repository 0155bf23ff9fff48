/** Gives the present moment; handed in, so that a test can set the clock. */
export type Now = () => Temporal.Instant

/** The date that it is in a time zone, 'YYYY-MM-DD'. */
export function dayOf(instant: Temporal.Instant, timeZone: string): string {
  return instant.toZonedDateTimeISO(timeZone).toPlainDate().toString()
}

/** The date some days later, 'YYYY-MM-DD'. */
export function addDays(day: string, days: number): string {
  return Temporal.PlainDate.from(day).add({ days }).toString()
}

/** ISO weekday of a date, Monday 1 to Sunday 7. */
export function weekdayOf(day: string): number {
  return Temporal.PlainDate.from(day).dayOfWeek
}

/** A date as typed or in an address, 'YYYY-MM-DD'; null when there is no such day. */
export function readDate(typed: string): string | null {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(typed)) return null
  try {
    return Temporal.PlainDate.from(typed, { overflow: 'reject' }).toString()
  } catch {
    return null
  }
}

/** Whether a name is a time zone that this machine knows. */
export function isTimeZone(name: string): boolean {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(name)
    return !/^[+-]/.test(name)
  } catch {
    return false
  }
}
