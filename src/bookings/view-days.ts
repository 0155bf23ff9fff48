import { freeFirstDays, freeWeeks } from '../days/queries.ts'
import { DAYS_AHEAD, type FreeDay, onPart, startsOn } from '../days/room.ts'
import { startInWords, startOf, startText } from '../days/start.ts'
import { choosesWeek, mondayOf, weekText } from '../days/week.ts'
import type { Deps } from '../deps.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords, monthDay } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { addDays } from '../lib/dates.ts'
import { earliestWork } from '../quotes/conditions.ts'
import { hasNear } from '../quotes/near-discount.ts'
import { findAnswered } from './day-asked.ts'
import { findNearDays, nearFirst } from './near-days.ts'
import { type NearView, nearSeen, nearWords } from './near-price.ts'
import type { OpenedLink } from './page.ts'
import { earliestInWeek } from './week.ts'

const DAYS_SHOWN = 10
/** So many where each may give two choices. */
const HALVED_SHOWN = 6
const WEEKS_SHOWN = 8
/** Among so many it is looked for work near. */
const DAYS_LOOKED_AT = 40

/** A day that can be chosen, or a half of one (see startText), or a week (see weekText), in words; `lasts` is the day on which a longer job is ready. */
export interface DayView {
  day: string
  words: string
  lasts: string | null
  /** Whether there is other work near on that day, and what that makes of the price. */
  isNear: boolean
  near: NearView | null
  /** Whether it was offered in place of one that was asked for. */
  isOffered: boolean
}

/** What can be chosen, as the page offers it. */
export interface DaysView {
  shown: DayView[]
  workDays: number
  /** From which day on there may be more; null where there are none. */
  later: string | null
  /** Whether these are later ones. */
  first: boolean
  /** Whether a day is asked for, and confirmed by the owner. */
  asks: boolean
  /** Of weeks, how many days before one its day is told at the latest; null of days. */
  weeks: number | null
  /** What became of the day that was asked for before; '' where none was. */
  answered: string
  /** The days beside which another price is shown (see nearSeen). */
  prices: string
}

/** Whether homeowners choose a week for this job. */
export function isByWeek({ business, quote }: OpenedLink): boolean {
  return choosesWeek(business, quote.labor_hours)
}

/** The days, or weeks, that can be chosen from `from` on (the first ones, when that is no later day), those with work near before them. */
export async function viewDays(
  deps: Deps,
  link: OpenedLink,
  from: string | undefined,
  language: Language,
): Promise<DaysView> {
  if (isByWeek(link)) return viewWeeks(deps, link, from, language)
  const { earliest, last } = bookableDays(deps, link)
  const { business, quote } = link
  const isLater = from !== undefined && from > earliest
  const start = isLater ? from : earliest
  const looksNear = business.near_first && !isLater
  const most = business.half_days ? HALVED_SHOWN : DAYS_SHOWN
  const looked = looksNear ? DAYS_LOOKED_AT : most
  const found = await freeFirstDays(deps.db, business, quote.labor_hours, start, looked, deps.now())
  const free = found.filter(({ day }) => day <= last)
  const days = free.map(({ day }) => day)
  const priceThere = await nearWords(deps, business, quote, language)
  const asksNear = business.near_first || business.near_discount !== null || hasNear(quote)
  const near = asksNear ? await findNearDays(deps.db, days, link.request) : new Set<string>()
  const inTurn = free.slice(0, most)
  const answered = await findAnswered(deps.db, link.request.id)
  const offered = answered?.offered && !isLater ? await findFreeDay(deps, link, answered.offered) : undefined
  const others = looksNear ? nearFirst(free, near, most) : inTurn
  const ordered = offered ? [offered, ...others.filter(({ day }) => day !== offered.day)] : others
  const shown: DayView[] = ordered.flatMap(free =>
    startsOn(free, business).map(start => ({
      day: startText(start),
      words: startInWords(start, language, free.day.slice(0, 4) !== earliest.slice(0, 4)),
      lasts: free.shares.length > 1 ? dayInWords(free.shares.at(-1)!.day, language) : null,
      isNear: near.has(free.day),
      near: priceThere(near.has(free.day)),
      isOffered: free.day === offered?.day,
    })),
  )
  return {
    shown,
    workDays: ordered[0]?.shares.length ?? 0,
    later: inTurn.length === most ? addDays(inTurn.at(-1)!.day, 1) : null,
    first: start > earliest,
    asks: business.day_choice === 'ask',
    weeks: null,
    answered: answered ? answeredInWords(answered, language) : '',
    prices: nearSeen(shown),
  }
}

async function viewWeeks(
  deps: Deps,
  { business, quote, request }: OpenedLink,
  from: string | undefined,
  language: Language,
): Promise<DaysView> {
  const earliest = earliestInWeek(business, quote, deps.now())
  const start = from !== undefined && from > earliest ? from : earliest
  const found = await freeWeeks(deps.db, business, quote.labor_hours, start, WEEKS_SHOWN, deps.now())
  const weeks = found.filter(({ monday }) => monday <= addDays(earliest, DAYS_AHEAD))
  const days = weeks.flatMap(({ monday }) => Array.from({ length: 7 }, (_, nth) => addDays(monday, nth)))
  const near = business.near_first ? await findNearDays(deps.db, days, request) : new Set<string>()
  const areNear = new Set([...near].map(mondayOf))
  const shown = weeks.map(({ monday }) => ({
    day: weekText(monday),
    words: t(language, 'week.of-alone', { day: monthDay(monday, language) }),
    lasts: null,
    isNear: areNear.has(monday),
    near: null,
    isOffered: false,
  }))
  return {
    shown,
    workDays: weeks[0]?.pencil.shares.length ?? 0,
    later: weeks.length === WEEKS_SHOWN ? addDays(weeks.at(-1)!.monday, 7) : null,
    first: start > earliest,
    asks: false,
    weeks: business.say_day_before,
    answered: '',
    prices: '',
  }
}

/** Whether a week, by its Monday, can be chosen and has room. */
export async function findFreeWeek(deps: Deps, link: OpenedLink, monday: string): Promise<boolean> {
  const { business, quote } = link
  const earliest = earliestInWeek(business, quote, deps.now())
  if (!isByWeek(link) || monday < earliest || monday > addDays(earliest, DAYS_AHEAD)) return false
  const [week] = await freeWeeks(deps.db, business, quote.labor_hours, monday, 1, deps.now())
  return week?.monday === monday
}

function answeredInWords(
  { isDeclined, day, words }: NonNullable<Awaited<ReturnType<typeof findAnswered>>>,
  language: Language,
): string {
  const said = t(language, isDeclined ? 'asked.declined-now' : 'asked.ended-now', {
    day: startInWords(startOf(day), language),
  })
  return [said, words].filter(Boolean).join(' ')
}

/**
 * One day, or a half of one (see startText), with the shares that the job would take, and whether it was offered in place of one that was asked for;
 * undefined when it can't begin on that day.
 */
export async function findFreeDay(
  deps: Deps,
  link: OpenedLink,
  start: string,
): Promise<(FreeDay & { isOffered: boolean }) | undefined> {
  const { day, part } = startOf(start)
  const { last } = bookableDays(deps, link)
  const isOffered = (await findAnswered(deps.db, link.request.id))?.offered === day
  const earliest = earliestWork(link.business, link.quote, deps.now(), isOffered ? 'staff' : 'homeowner')
  if (day < earliest || day > last || (isByWeek(link) && !isOffered)) return undefined
  const [first] = await freeFirstDays(deps.db, link.business, link.quote.labor_hours, day, 1, deps.now())
  if (first?.day !== day) return undefined
  if (!part) return { ...first, isOffered }
  const shares = onPart(first.shares, part)
  const isFree = link.business.half_days && first.parts.includes(part)
  return shares && isFree ? { ...first, shares, isOffered } : undefined
}

function bookableDays(deps: Deps, { business, quote }: OpenedLink) {
  const earliest = earliestWork(business, quote, deps.now())
  return { earliest, last: addDays(earliest, DAYS_AHEAD) }
}
