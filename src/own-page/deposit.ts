import { findBooking } from '../bookings/queries.ts'
import type { Business } from '../business/queries.ts'
import type { Stage } from '../db/schema/stages.ts'
import type { Deps } from '../deps.ts'
import type { Language } from '../language/language.ts'
import { findHeld } from '../payments/queries.ts'
import { depositInWords, depositStanding } from '../payments/standing.ts'
import { findAcceptedQuote } from '../quotes/queries.ts'

const AHEAD: Stage[] = ['quoted', 'day asked', 'week chosen', 'booked']

/** How the deposit of an accepted price stands, a line each; none where there is none, or the request is over. */
export async function depositOfRequest(
  deps: Deps,
  business: Business,
  { id, stage }: { id: number; stage: Stage },
  language: Language,
): Promise<string[]> {
  const quote = await findAcceptedQuote(deps.db, id)
  if (!quote || !AHEAD.includes(stage)) return []
  const booking = await findBooking(deps.db, id)
  const standing = depositStanding(quote, await findHeld(deps.db, id), booking?.begins, business, deps.now())
  return standing ? depositInWords(standing, quote.currency, language) : []
}
