import { workEntry } from '../bookings/calendar.ts'
import type { Business } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import type { Language } from '../language/language.ts'
import { publishedEntries } from '../outbox/calendar.ts'
import { visitEntry } from '../visits/calendar.ts'
import type { OwnRequest } from './view.ts'

/** The visit and the work days ahead of a request as iCalendar, for its homeowner to fetch; null where there are none. */
export async function ownCalendar(
  deps: Deps,
  business: Business,
  { id, number, street, postcode }: OwnRequest,
  path: string,
  language: Language,
): Promise<string | null> {
  const location = [street, postcode].filter(Boolean).join(', ')
  const told = { number, business: business.name, language, location, link: deps.config.publicUrl + path }
  const entries = [await visitEntry(deps, id, told), await workEntry(deps, id, told)]
  const ahead = entries.filter(entry => entry !== undefined).filter(entry => !entry.isCanceled)
  return ahead.length > 0 ? publishedEntries(ahead, deps.now()) : null
}
