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

/** The time of the day of a moment in a time zone, as "2:30 PM". */
export function timeInWords(instant: string, timeZone: string, language: 'en' | 'es'): string {
  return Temporal.Instant.from(instant)
    .toZonedDateTimeISO(timeZone)
    .toLocaleString(LOCALES[language], { hour: 'numeric', minute: '2-digit' })
}

/** A time to wait, as "12 seconds". */
export function secondsInWords(seconds: number, language: 'en' | 'es'): string {
  const inWords = { style: 'unit', unit: 'second', unitDisplay: 'long' } as const
  return new Intl.NumberFormat(LOCALES[language], inWords).format(seconds)
}

/** A day in a time zone as "Mon, Mar 2". */
export function shortDay(instant: string, timeZone: string): string {
  return shortDate(Temporal.Instant.from(instant).toZonedDateTimeISO(timeZone).toPlainDate())
}

/** A date 'YYYY-MM-DD' as "Mon, Mar 2". */
export function shortDate(day: string | Temporal.PlainDate, language: 'en' | 'es' = 'en'): string {
  return SHORT[language].format(Temporal.PlainDate.from(day))
}

/** A date 'YYYY-MM-DD' of whatever year, as "Mar 2, 2026". */
export function datedDay(day: string): string {
  return Temporal.PlainDate.from(day).toLocaleString(LOCALES.en, {
    month: 'short',
    day: 'numeric',
    year: 'numeric',
  })
}

const AS_SHORT = { weekday: 'short', month: 'short', day: 'numeric' } as const
const SHORT = {
  en: new Intl.DateTimeFormat(LOCALES.en, AS_SHORT),
  es: new Intl.DateTimeFormat(LOCALES.es, AS_SHORT),
}
