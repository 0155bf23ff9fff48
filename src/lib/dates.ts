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

/** Whether a name is a time zone that this machine knows. */
export function isTimeZone(name: string): boolean {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(name)
    return !/^[+-]/.test(name)
  } catch {
    return false
  }
}
