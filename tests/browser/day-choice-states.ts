import { acceptQuote, bookDay } from '../../src/bookings/booking.ts'
import { declineDay } from '../../src/bookings/day-asked.ts'
import { requireBusiness } from '../../src/business/queries.ts'
import { setRoom } from '../../src/days/work-day.ts'
import { json } from '../../src/db/json.ts'
import { findLinkPath } from '../../src/requests/links.ts'
import { offerTimes } from '../../src/visits/pick-time.ts'
import type { TestApp } from '../helpers/app.ts'
import {
  acceptedRequest,
  askedRequest,
  depositRequest,
  quotedRequest,
  weekRequest,
} from '../helpers/bookings.ts'
import { quoteRequest } from '../helpers/quotes.ts'
import { sendRequest } from '../helpers/requests.ts'
import type { PageState } from './page-states.ts'

const STAFF = { kind: 'staff', accountId: 1 } as const
// Far from what other states book.
const [NEAR, FAR] = ['2026-04-14', '2026-04-15'] as const

interface Ways {
  day_choice?: 'day' | 'week' | 'ask'
  half_days?: boolean
  near_discount?: boolean
}

/**
 * The pages on which days are chosen, asked for, moved and shown, by each way in which the owner may have them chosen; the
 * business is left as it was. `accountId` is the owner's.
 */
export function dayChoiceStates(app: TestApp, accountId: number): PageState[] {
  const follow = ({ day_choice = 'day', half_days = false, near_discount = false }: Ways) => {
    const discount = near_discount ? json({ by: 'share' as const, value: '0.05' }) : null
    const row = { day_choice, half_days, near_discount: discount }
    return app.db.updateTable('business').set(row).execute()
  }
  const own = async ({ id }: { id: number }, part = '') =>
    (await findLinkPath(app.db, app.deps.secretKey, 'own page', id)) + part
  const state = (
    name: string,
    who: PageState['who'],
    ways: Ways,
    make: () => Promise<string>,
  ): PageState => ({
    name,
    who,
    address: async () => {
      await follow(ways)
      return make()
    },
  })
  const bookedOn = async (start: string) => {
    const job = await priced()
    await bookDay(app.deps, job.id, start)
    return job
  }

  const asks = { day_choice: 'ask' } as const
  const weeks = { day_choice: 'week' } as const
  const halves = { half_days: true }
  const discount = { half_days: true, near_discount: true }
  return [
    state('weeks to choose from', 'homeowner', weeks, async () => (await priced()).path),
    state('accepting, with weeks', 'homeowner', weeks, async () => `${(await priced(false)).path}/accept`),
    state('a week that was chosen', 'homeowner', {}, async () => own(await weekRequest(app))),
    state('the staff’s page of a week', 'owner', {}, async () => `/queue/${(await weekRequest(app)).number}`),
    state('days to ask for', 'homeowner', asks, async () => (await priced()).path),
    state(
      'accepting, with days to ask for',
      'homeowner',
      asks,
      async () => `${(await priced(false)).path}/accept`,
    ),
    state('a day that is asked for', 'homeowner', {}, async () => own(await askedRequest(app))),
    state('a day that can’t be, and one offered', 'homeowner', asks, async () => {
      const job = await askedRequest(app, '0.25', FAR)
      await declineDay(app.deps, accountId, job.id, {
        day: FAR,
        offered: NEAR,
        words: 'Our truck is in the shop.',
      })
      return job.path
    }),
    state('a day booked where days are asked for', 'homeowner', {}, async () => {
      const job = await bookedOn(FAR)
      await follow(asks)
      return own(job, '/day')
    }),
    state('mornings and afternoons', 'homeowner', halves, async () => (await priced()).path),
    state('a morning that is booked', 'homeowner', halves, async () => own(await bookedOn(`${FAR} am`))),
    state('moving a morning', 'homeowner', halves, async () => own(await bookedOn(`${FAR} am`), '/day')),
    state('the staff’s page of a morning', 'owner', halves, async () => {
      return `/queue/${(await bookedOn(`${FAR} am`)).number}`
    }),
    state('days with mornings', 'owner', halves, async () => `/days?from=${FAR}`),
    state('rain on halves, with a makeup day', 'owner', halves, async () => {
      await setRoom(app.deps, await requireBusiness(app.db), '2026-04-18', '8', true)
      return `/days/${FAR}/rain`
    }),
    state('a discount near work, accepting', 'homeowner', discount, async () => {
      await bookDay(app.deps, (await acceptedRequest(app, '0.25')).id, NEAR, STAFF)
      return `${(await priced(false)).path}/accept?from=${NEAR}`
    }),
    state(
      'a price with the discount',
      'homeowner',
      discount,
      async () => (await bookedOn(`${NEAR} am`)).path,
    ),
    state('moving a price with the discount', 'homeowner', discount, async () =>
      own(await bookedOn(`${NEAR} am`), '/day'),
    ),
    state('the settings with every way', 'owner', { ...discount, ...asks }, async () => '/settings/days'),
    state('canceling with a deposit', 'homeowner', {}, async () =>
      own(await depositRequest(app), '/call-off'),
    ),
    state('times of visits to pick from', 'homeowner', {}, async () => own(await withTimes(), '/visit')),
    state('the staff’s page with times that were sent', 'owner', {}, async () => {
      return `/queue/${(await withTimes()).number}`
    }),
  ]

  /** A price that a discount leaves above the minimum charge. */
  async function priced(isAccepted = true) {
    const made = await quotedRequest(app, '0.25')
    const added = [{ description: 'Gate', amount: '400.00', reason: 'asked for' }]
    const { revision } = await quoteRequest(app, made.number, { added, laborHours: '0.25' })
    if (isAccepted) await acceptQuote(app.deps, made.id, { revision, typedName: 'Carol Reyes' })
    return made
  }

  async function withTimes() {
    const request = await sendRequest(app)
    const times = ['2026-04-20T15:00:00Z', '2026-04-21T15:00:00Z'].map(time => Temporal.Instant.from(time))
    await offerTimes(app.deps, accountId, request.id, times)
    return request
  }
}
