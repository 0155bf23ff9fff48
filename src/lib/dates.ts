/** Gives the present moment; handed in, so that a test can set the clock. */
export type Now = () => Temporal.Instant

const LOCALES = { en: 'en-US', es: 'es-US' } as const

/** A day in words with its weekday, as "Friday, April 3". `day` is 'YYYY-MM-DD'. */
export function dayInWords(day: string, language: 'en' | 'es', withYear = false): string {
  return Temporal.PlainDate.from(day).toLocaleString(LOCALES[language], {
    weekday: 'long',
    month: 'long',
    day: 'numeric',
    ...(withYear ? { year: 'numeric' } : {}),
  })
}

/** A moment in a time zone, as "Fri, Apr 3, 2:30 PM". `instant` is ISO 8601. */
export function momentInWords(instant: string, timeZone: string, language: 'en' | 'es'): string {
  return Temporal.Instant.from(instant).toZonedDateTimeISO(timeZone).toLocaleString(LOCALES[language], {
    weekday: 'short',
    month: 'short',
    day: 'numeric',
    hour: 'numeric',
    minute: '2-digit',
  })
}

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
