import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import type { RequestRow } from '../requests/queries.ts'
import { freeTimes } from '../visits/free-times.ts'
import { visitRules } from '../visits/full-days.ts'
import { findOffers, findVisitsTaken } from '../visits/offered-times.ts'
import { findVisitAhead, findVisitDone } from '../visits/queries.ts'

const TIMES_SHOWN = 12
const SOONEST = { hours: 1 }

/** The visit of a request as its page shows it, in words: what is set and done, and which times are free. */
export interface VisitView {
  ahead: string | null
  /** Which visit that is, 0 for none, as the form carries it. */
  seen: number
  done: string | null
  /** Those that suit what the homeowner wrote of good times come first; none where no visit can be set. */
  free: { value: string; label: string }[]
  /** Times that were sent to be picked from. */
  offered: string[]
}

export async function viewVisit(
  deps: Deps,
  business: Business,
  { id, stage, preferred_times: preferred }: RequestRow,
): Promise<VisitView> {
  const now = deps.now()
  const inWords = (at: string) => momentInWords(at, business.time_zone, 'en')
  const ahead = await findVisitAhead(deps.db, id)
  const done = await findVisitDone(deps.db, id)
  const mayBe = stage === 'new' || stage === 'visit set'
  const taken = mayBe ? await findVisitsTaken(deps.db, now, id) : []
  const rules = await visitRules(deps.db, business, now, { own: ahead })
  const free = mayBe ? freeTimes(rules, taken, now.add(SOONEST), { count: TIMES_SHOWN, preferred }) : []
  const offered = stage === 'new' ? await findOffers(deps.db, id, now) : []
  return {
    ahead: ahead ? inWords(ahead.starts_at) : null,
    seen: ahead?.id ?? 0,
    done: done?.done_at ? inWords(done.done_at) : null,
    free: free.map(time => ({ value: time.toString(), label: inWords(time.toString()) })),
    offered: offered.map(time => inWords(time.toString())),
  }
}
