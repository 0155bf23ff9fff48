import type { Business } from '../business/queries.ts'
import { viewComeBacks } from '../closing/come-backs.ts'
import { findToClose } from '../closing/on-days.ts'
import { findCrew, findCrewOff } from '../days/crew.ts'
import { crewByDay } from '../days/crew-in-words.ts'
import { findCrewNotes } from '../days/crew-notes.ts'
import { findOffFor } from '../days/days-off.ts'
import { findBookedJobs, findWorkDaysBetween } from '../days/queries.ts'
import { type RoomOn, roomsOf } from '../days/room.ts'
import { PARTS, type Part } from '../days/start.ts'
import { isOpenToChange } from '../days/work-day.ts'
import type { Deps } from '../deps.ts'
import { drawRoom } from '../drawing/room-bar.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords, shortDate, timeInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { figureInWords } from '../language/money-in-words.ts'
import { addDays, dayOf, weekdayOf } from '../lib/dates.ts'
import { type Decimal, sumOf, zero } from '../lib/decimal.ts'
import { findVisitsBetween } from '../visits/queries.ts'
import { viewGlance } from './days-glance.ts'
import { viewWeeks, type WeekView } from './week-view.ts'

const DAYS_SHOWN = 14
const NOON = 12

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
  const booked = await findBookedJobs(deps.db, first, last, deps.now())
  const numbers = [...new Set(booked.map(({ number }) => number))]
  const notes = await findCrewNotes(deps.db, numbers)
  const toClose = await findToClose(deps.db, numbers, today)
  const rows = await findWorkDaysBetween(deps.db, first, last, deps.now())
  const roomOn = roomsOf(business, rows, 'counted')
  const makeup = new Set(rows.filter(row => row.is_makeup).map(row => row.day))
  const jobs = booked.map(job => ({
    ...job,
    ...(notes.get(job.number) ?? { rules: '', stops: [] }),
    hours: hoursOfJob(job, language),
    // Whoever is erased has nothing that could be opened.
    toClose: job.is_erased ? null : (toClose.get(job.number) ?? null),
    hasCome: job.day <= today,
    isAsked: job.held_until !== null,
    isPenciled: job.say_by !== null,
    half: job.part ? t(language, `days.${job.part}`) : '',
  }))
  const crewOn = crewByDay(
    business,
    await findCrew(deps.db),
    await findCrewOff(deps.db, first, last),
    language,
  )
  const offFor = await findOffFor(deps.db, first, last)
  const visits = await visitsOn(deps, business, { first, last }, language)
  const days = Array.from({ length: DAYS_SHOWN }, (_, index) => addDays(first, index)).map(day => ({
    day,
    words: dayInWords(day, language, day.slice(0, 4) !== today.slice(0, 4)),
    ...viewRoom(business, day, roomOn, language),
    offFor: offFor.get(day) ?? '',
    crew: roomOn(day) ? crewOn(day) : [],
    isToday: day === today,
    isMakeup: makeup.has(day),
    mayChange: isOpenToChange(business, day, deps.now()),
    ...onDay(
      visits.filter(visit => visit.day === day),
      jobs.filter(job => job.day === day),
    ),
  }))
  const range = { from: shortDate(first, language), until: shortDate(last, language) }
  const weeks = first === today ? await viewWeeks(deps, business, language) : []
  return {
    weeks,
    waiting: weeksInWords(weeks, language),
    glance: viewGlance(days, roomOn, language),
    comeBacks: await viewComeBacks(deps.db, { today, last }, language),
    parts: foldEmptyDays(days, language),
    first,
    today,
    range: t(language, 'days.range', range),
    earlier: addDays(first, -DAYS_SHOWN),
    later: addDays(first, DAYS_SHOWN),
  }
}

/**
 * What is on a day, and all of it in the order of the day: of its morning and then its afternoon first the visits, at their
 * times, then the work; last the work for which the day has no half.
 */
function onDay<Visit extends { isMorning: boolean }, Job extends { part: Part | null }>(
  visits: Visit[],
  jobs: Job[],
) {
  const halves = PARTS.flatMap(half => [
    ...visits.filter(({ isMorning }) => isMorning === (half === 'am')).map(visit => ({ visit, job: null })),
    ...jobs.filter(({ part }) => part === half).map(job => ({ visit: null, job })),
  ])
  const whole = jobs.filter(({ part }) => part === null).map(job => ({ visit: null, job }))
  return { visits, jobs, entries: [...halves, ...whole] }
}

async function visitsOn(
  { db }: Deps,
  { time_zone: zone }: Business,
  { first, last }: { first: string; last: string },
  language: Language,
) {
  const startOf = (day: string) => Temporal.PlainDate.from(day).toZonedDateTime(zone).toInstant()
  const visits = await findVisitsBetween(db, startOf(first), startOf(addDays(last, 1)))
  return visits.map(visit => ({
    ...visit,
    day: dayOf(Temporal.Instant.from(visit.starts_at), zone),
    time: timeInWords(visit.starts_at, zone, language),
    isMorning: Temporal.Instant.from(visit.starts_at).toZonedDateTimeISO(zone).hour < NOON,
  }))
}

export type DaysPage = Awaited<ReturnType<typeof viewDaysPage>>

/** Days that stand by themselves, and runs of them with nothing booked, said in one line. Today always stands by itself. */
function foldEmptyDays<Day extends DayFolded>(days: Day[], language: Language) {
  const parts: { days: Day[]; empty: string | null }[] = []
  let run: Day[] = []
  const close = () => {
    if (run.length > 0) parts.push({ days: run, empty: emptyInWords(run, language) })
    run = []
  }
  for (const day of days) {
    if (day.jobs.length === 0 && day.visits.length === 0 && !day.isToday) {
      run.push(day)
      continue
    }
    close()
    parts.push({ days: [day], empty: null })
  }
  close()
  return parts
}

function weeksInWords([first, ...more]: WeekView[], language: Language): string | null {
  if (!first) return null
  const said = { count: more.length + 1, day: shortDate(first.sayBy, language) }
  return t(language, more.length > 0 ? 'days.some-weeks' : 'days.one-week', said)
}

interface DayFolded {
  day: string
  isToday: boolean
  isWorkDay: boolean
  free: Decimal
  jobs: unknown[]
  visits: unknown[]
}

function emptyInWords(days: DayFolded[], language: Language): string {
  const [first, last] = [days[0]!, days.at(-1)!].map(({ day }) => shortDate(day, language))
  const free = sumOf(days.map(day => day.free))
  const said = days.every(day => !day.isWorkDay) ? 'off' : free.isZero() ? 'closed' : 'empty'
  const when = days.length === 1 ? first! : t(language, 'days.run', { from: first!, until: last! })
  return t(language, `days.run-${said}`, { when, hours: figureInWords(free.toFixed(), language) })
}

function viewRoom(business: Business, day: string, roomOn: RoomOn, language: Language) {
  const on = roomOn(day)
  if (!on) {
    const isWorkDay = business.working_days.includes(weekdayOf(day))
    const state = t(language, isWorkDay ? 'days.closed' : 'days.no-work-day')
    return { room: '0', free: zero, state, isWorkDay, drawing: null }
  }
  const room = figureInWords(on.room.toFixed(), language)
  const free = on.room.minus(on.taken)
  const words = { free: figureInWords(free.toFixed(), language), room }
  const state = t(language, on.taken.lt(on.room) ? 'days.free' : 'days.full', words)
  const [taken, whole] = [on.taken.toNumber(), on.room.toNumber()]
  const drawing = drawRoom({ taken, room: whole, title: state, id: `room-bar-${day}` })
  return { room: on.room.toFixed(), free, state, isWorkDay: true, drawing }
}

function hoursOfJob(job: { hours: string; labor_hours: string }, language: Language): string {
  const hours = figureInWords(job.hours, language)
  if (Number(job.hours) === Number(job.labor_hours)) return t(language, 'days.hours', { hours })
  return t(language, 'days.hours-of', { hours, whole: figureInWords(job.labor_hours, language) })
}
