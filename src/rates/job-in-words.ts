import type { RateTable } from '../estimate/table/rate-table.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { type EarnedAt, earnedAt } from './earnings-at.ts'
import { floorInWords } from './floor-in-words.ts'
import type { JobWithQuote } from './job-queries.ts'

/** What other rates make of one job: how much more or less it earns, then in what; figures is empty while unknown. */
export interface JobTouched {
  number: string
  customer: string
  /** Of its work day, '' while none is booked. */
  day: string
  earns: string
  figures: string[]
  floors: string[]
}

/** Says what other rates make of a quoted job's cost and margin, at the price it was quoted. */
export function jobInWords(job: JobWithQuote, before: RateTable, after: RateTable): JobTouched {
  const about = {
    number: job.number,
    customer: job.name,
    day: job.first_day ? dayInWords(job.first_day, 'en') : '',
  }
  const [was, now] = [earnedAt(job, before), earnedAt(job, after)]
  if (now === null) return { ...about, earns: '', figures: [], floors: [] }
  const money = (amount: Decimal) => moneyInWords(cents(amount), job.currency, 'en')
  return {
    ...about,
    earns: was ? `earns ${differenceInWords(was.cost.minus(now.cost), money)}` : '',
    figures: [costInWords(was, now, money), marginInWords(was, now)].filter(Boolean),
    floors: now.missed.map(floor => {
      const sentence = floorInWords(floor, after)
      return was?.missed.includes(floor) ? `${sentence} It was before.` : sentence
    }),
  }
}

type InWords = (amount: Decimal) => string

function costInWords(was: EarnedAt | null, now: EarnedAt, money: InWords): string {
  if (was === null) return `cost ${money(now.cost)}, not known before`
  return was.cost.eq(now.cost)
    ? `cost ${money(now.cost)}`
    : `cost was ${money(was.cost)}, now ${money(now.cost)}`
}

// Of the shares as they are shown, so that the difference is theirs.
function marginInWords(was: EarnedAt | null, now: EarnedAt): string {
  if (now.margin === null) return ''
  const share = shown(now.margin)
  const before = was?.margin ? shown(was.margin) : share
  if (share.eq(before)) return `margin ${share.toFixed(1)}%`
  const points = differenceInWords(share.minus(before), amount => `${amount.toFixed(1)} points`)
  return `margin was ${before.toFixed(1)}%, now ${share.toFixed(1)}%: ${points}`
}

function shown(margin: Decimal): Decimal {
  return new Decimal(margin.times(100).toFixed(1))
}

function differenceInWords(difference: Decimal, inWords: InWords): string {
  if (difference.isZero()) return 'as before'
  return `${inWords(difference.abs())} ${difference.gt(0) ? 'more' : 'less'}`
}
