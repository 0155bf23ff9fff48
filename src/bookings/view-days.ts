import { freeFirstDays } from '../days/queries.ts'
import { DAYS_AHEAD, type FreeDay, onPart, startsOn } from '../days/room.ts'
import { startInWords, startOf, startText } from '../days/start.ts'
import type { Deps } from '../deps.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { addDays } from '../lib/dates.ts'
import { earliestWork } from '../quotes/conditions.ts'
import { findAnswered } from './day-asked.ts'
import { findNearDays, nearFirst } from './near-days.ts'
import type { OpenedLink } from './page.ts'

const DAYS_SHOWN = 10
/** So many where each may give two choices. */
const HALVED_SHOWN = 6
/** Among so many it is looked for work near. */
const DAYS_LOOKED_AT = 40

/** A day that can be chosen, or a half of one (see startText), in words; `lasts` is the day on which a longer job is ready. */
export interface DayView {
  day: string
  words: string
  lasts: string | null
  /** Whether there is other work near on that day. */
  isNear: boolean
  /** Whether it was offered in place of one that was asked for. */
  isOffered: boolean
}

/** The days that can be chosen from `from` on (the first ones, when that is no later day), those with work near before them. */
export async function viewDays(deps: Deps, link: OpenedLink, from: string | undefined, language: Language) {
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
  const near = business.near_first ? await findNearDays(deps.db, days, link.request) : new Set<string>()
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
      isOffered: free.day === offered?.day,
    })),
  )
  return {
    shown,
    workDays: ordered[0]?.shares.length ?? 0,
    later: inTurn.length === most ? addDays(inTurn.at(-1)!.day, 1) : null,
    first: start > earliest,
    /** Whether a day is asked for, and confirmed by the owner. */
    asks: business.day_choice === 'ask',
    /** What became of the day that was asked for before; '' where none was. */
    answered: answered ? answeredInWords(answered, language) : '',
  }
}

export type DaysView = Awaited<ReturnType<typeof viewDays>>

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
  if (day < earliest || day > last) return undefined
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
