import type { Business } from '../business/queries.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { weekdayOf } from '../lib/dates.ts'
import type { findCrew, findCrewOff } from './crew.ts'

/** Who works on a day with their hours, and who is off, a line each; none where nobody is listed. */
export function crewByDay(
  { weekday_hours }: Business,
  crew: Awaited<ReturnType<typeof findCrew>>,
  off: Awaited<ReturnType<typeof findCrewOff>>,
  language: Language,
): (day: string) => string[] {
  if (weekday_hours === null) return () => []
  return day => {
    const onDay = crew.filter(({ hours }) => Number(hours[weekdayOf(day) - 1]) > 0)
    const isOff = (id: number) =>
      off.some(one => one.crew_member_id === id && one.from_day <= day && day <= one.to_day)
    const there = onDay.filter(({ id }) => !isOff(id))
    const working = there.map(
      ({ name, hours }) => `${name} ${figureInWords(hours[weekdayOf(day) - 1]!, language)}`,
    )
    const away = onDay.filter(({ id }) => isOff(id)).map(({ name }) => name)
    return [
      ...(working.length > 0 ? [t(language, 'days.crew', { names: working.join(', ') })] : []),
      ...(away.length > 0 ? [t(language, 'days.away', { names: away.join(', ') })] : []),
    ]
  }
}
