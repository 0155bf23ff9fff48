import type { Business } from '../business/queries.ts'
import { findBookedJobs, findWorkDaysBetween } from '../days/queries.ts'
import { type RoomOn, roomsOf } from '../days/room.ts'
import { isOpenToChange } from '../days/work-day.ts'
import type { Deps } from '../deps.ts'
import { drawRoom } from '../drawing/room-bar.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { addDays, dayOf, weekdayOf } from '../lib/dates.ts'

const DAYS_SHOWN = 14

/** A strip of days from `from` on, else from today, in words and drawings. It holds no prices: a helper sees it too. */
export async function viewDaysPage(
  deps: Deps,
  business: Business,
  from: string | undefined,
  language: Language,
) {
  const today = dayOf(deps.now(), business.time_zone)
  const first = from ?? today
  const last = addDays(first, DAYS_SHOWN - 1)
  const roomOn = roomsOf(business, await findWorkDaysBetween(deps.db, first, last))
  const jobs = (await findBookedJobs(deps.db, first, last)).map(job => ({
    ...job,
    hours: hoursOfJob(job, language),
  }))
  const days = Array.from({ length: DAYS_SHOWN }, (_, index) => addDays(first, index)).map(day => ({
    day,
    words: dayInWords(day, language, day.slice(0, 4) !== today.slice(0, 4)),
    ...viewRoom(business, day, roomOn, language),
    mayChange: isOpenToChange(business, day, deps.now()),
    jobs: jobs.filter(job => job.day === day),
  }))
  const range = { from: dayInWords(first, language), until: dayInWords(last, language, true) }
  return {
    days,
    first,
    today,
    range: t(language, 'days.range', range),
    earlier: addDays(first, -DAYS_SHOWN),
    later: addDays(first, DAYS_SHOWN),
  }
}

export type DaysPage = Awaited<ReturnType<typeof viewDaysPage>>

function viewRoom(business: Business, day: string, roomOn: RoomOn, language: Language) {
  const on = roomOn(day)
  if (!on) {
    const isWorkDay = business.working_days.includes(weekdayOf(day))
    const state = t(language, isWorkDay ? 'days.closed' : 'days.no-work-day')
    return { room: '0', state, isWorkDay, drawing: null }
  }
  const room = figureInWords(on.room.toFixed(), language)
  const free = figureInWords(on.room.minus(on.taken).toFixed(), language)
  const state = t(language, on.taken.lt(on.room) ? 'days.free' : 'days.full', { free, room })
  const [taken, whole] = [on.taken.toNumber(), on.room.toNumber()]
  const drawing = drawRoom({ taken, room: whole, title: state, id: `room-bar-${day}` })
  return { room: on.room.toFixed(), state, isWorkDay: true, drawing }
}

function hoursOfJob(job: { hours: string; crew_hours: string }, language: Language): string {
  const hours = figureInWords(job.hours, language)
  if (Number(job.hours) === Number(job.crew_hours)) return t(language, 'days.hours', { hours })
  return t(language, 'days.hours-of', { hours, whole: figureInWords(job.crew_hours, language) })
}
