import type { RoomOn } from '../days/room.ts'
import { drawRoom } from '../drawing/room-bar.ts'
import { t } from '../language/catalogue.ts'
import { shortDate } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'

const DAYS_AT_A_GLANCE = 3

interface DayShown {
  day: string
  isToday: boolean
  isWorkDay: boolean
  state: string
  jobs: unknown[]
  visits: unknown[]
}

/** One of the next days, in two lines: what is on it, and its room. */
export interface GlanceView {
  day: string
  words: string
  isToday: boolean
  booked: string
  state: string
  drawing: string | null
}

/** The next days that are worked, or on which something is booked, and today: for a phone, where each takes a screen. */
export function viewGlance(days: DayShown[], roomOn: RoomOn, language: Language): GlanceView[] {
  const busy = days.filter(day => day.isToday || day.isWorkDay || day.jobs.length + day.visits.length > 0)
  return busy.slice(0, DAYS_AT_A_GLANCE).map(({ day, isToday, state, jobs, visits }) => {
    const on = roomOn(day)
    const hours = on && { taken: on.taken.toNumber(), room: on.room.toNumber() }
    return {
      ...{ day, isToday, state },
      words: shortDate(day, language),
      booked: bookedInWords(visits.length, jobs.length, language),
      drawing: hours && drawRoom({ ...hours, title: state, id: `glance-bar-${day}` }),
    }
  })
}

function bookedInWords(visits: number, jobs: number, language: Language): string {
  const said = [
    visits > 0 && t(language, visits === 1 ? 'days.one-visit' : 'days.visits', { count: visits }),
    jobs > 0 && t(language, jobs === 1 ? 'days.one-job' : 'days.jobs', { count: jobs }),
  ].filter(Boolean)
  return said.length > 0 ? said.join(', ') : t(language, 'days.nothing')
}
