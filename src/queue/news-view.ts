import type { Business } from '../business/queries.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { type findHistory, HOMEOWNERS_NEWS } from '../requests/history.ts'
import type { RequestRow } from '../requests/queries.ts'
import { eventInWords } from './history-words.ts'

/** What the homeowner did since somebody looked, and the last entry of it. */
export interface NewsView {
  entries: { what: string; at: string; when: string }[]
  upTo: number
}

/** The news of a request, newest first, of its whole history in order; null where somebody has looked since. */
export function newsOf(
  { news_from }: RequestRow,
  history: Awaited<ReturnType<typeof findHistory>>,
  business: Business,
): NewsView | null {
  if (news_from === null) return null
  const unseen = history.filter(
    one => one.id >= news_from && one.by_kind === 'homeowner' && HOMEOWNERS_NEWS.includes(one.verb),
  )
  const entries = unseen.reverse().map(({ verb, detail, at }) => ({
    what: eventInWords(verb, detail, business),
    at,
    when: momentInWords(at, business.time_zone, 'en'),
  }))
  return { entries, upTo: unseen.at(-1)?.id ?? news_from }
}
