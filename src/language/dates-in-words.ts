const LOCALES = { en: 'en-US', es: 'es-US' } as const
const DATED = { month: 'short', day: 'numeric', year: 'numeric' } as const
const DAY = { weekday: 'long', month: 'long', day: 'numeric' } as const
const DAY_OF_A_YEAR = { ...DAY, year: 'numeric' } as const
const SHORT = { weekday: 'short', month: 'short', day: 'numeric' } as const
const MONTH_DAY = { month: 'long', day: 'numeric' } as const
const TIME = { hour: 'numeric', minute: '2-digit' } as const
const MOMENT = { ...SHORT, ...TIME } as const

/** A day in words with its weekday, as "Friday, April 3". `day` is 'YYYY-MM-DD'. */
export function dayInWords(day: string, language: 'en' | 'es', withYear = false): string {
  return formatOf(withYear ? DAY_OF_A_YEAR : DAY, language).format(Temporal.PlainDate.from(day))
}

/** A day of the year in words, as "April 3". `day` is 'YYYY-MM-DD'. */
export function monthDay(day: string, language: 'en' | 'es'): string {
  return formatOf(MONTH_DAY, language).format(Temporal.PlainDate.from(day))
}

/** A moment in a time zone, as "Fri, Apr 3, 2:30 PM". `instant` is ISO 8601. */
export function momentInWords(instant: string, timeZone: string, language: 'en' | 'es'): string {
  return formatOf(MOMENT, language, timeZone).format(Temporal.Instant.from(instant))
}

/** The time of the day of a moment in a time zone, as "2:30 PM". */
export function timeInWords(instant: string, timeZone: string, language: 'en' | 'es'): string {
  return formatOf(TIME, language, timeZone).format(Temporal.Instant.from(instant))
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
  return formatOf(SHORT, language).format(Temporal.PlainDate.from(day))
}

/** A date 'YYYY-MM-DD' of whatever year, as "Mar 2, 2026". */
export function datedDay(day: string): string {
  return formatOf(DATED, 'en').format(Temporal.PlainDate.from(day))
}

// Making a format takes longer than all that a page says with it.
const formats = new Map<object, Map<string, Intl.DateTimeFormat>>()

function formatOf(
  parts: Intl.DateTimeFormatOptions,
  language: 'en' | 'es',
  timeZone = 'UTC',
): Intl.DateTimeFormat {
  const ofParts = formats.get(parts) ?? new Map<string, Intl.DateTimeFormat>()
  formats.set(parts, ofParts)
  const key = `${language} ${timeZone}`
  const format = ofParts.get(key) ?? new Intl.DateTimeFormat(LOCALES[language], { ...parts, timeZone })
  ofParts.set(key, format)
  return format
}
