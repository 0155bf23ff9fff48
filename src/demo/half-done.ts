import { findBooking } from '../bookings/queries.ts'
import { requireBusiness } from '../business/queries.ts'
import { closeWith } from '../closing/close-with.ts'
import { freeFirstDays } from '../days/queries.ts'
import type { Deps } from '../deps.ts'
import { OWNER } from './business.ts'
import type { Happening } from './stories.ts'

/** Does part of a job on its day, the owner alone, and books the rest for the first free day from `from` on. */
export async function doPart(
  deps: Deps,
  ownerId: number,
  id: number,
  from: string,
  { hours, note }: Happening & { verb: 'do part of it' },
): Promise<void> {
  const [business, booking] = await Promise.all([requireBusiness(deps.db), findBooking(deps.db, id)])
  const day = booking!.first_day
  const [rest] = await freeFirstDays(deps.db, business, hours, from, 1, deps.now())
  const worked = { account_id: ownerId, name: OWNER.name, task: 'work', minutes: 210 } as const
  await closeWith(deps, ownerId, id, 1, {
    ...{ outcome: 'part done', firstDay: day, lastDay: day, trips: 1, note },
    ...{ used: [], left: [], hours: [worked], fees: [], shares: [] },
    rest: { day: rest!.day, hours },
  })
}
