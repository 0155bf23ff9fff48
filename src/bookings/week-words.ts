import { mondayOf, weekInWords } from '../days/week.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'

/** The week of a booking whose day isn't said yet, and the day by which it is; null of any other. */
export function weekOf(
  booking: { first_day: string; say_by: string | null } | undefined,
  language: Language,
): { words: string; sayBy: string } | null {
  if (!booking?.say_by) return null
  const words = weekInWords(mondayOf(booking.first_day), language)
  return { words, sayBy: dayInWords(booking.say_by, language) }
}
