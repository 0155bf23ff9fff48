import type { Business } from '../business/queries.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { eventInWords } from './history-words.ts'
import type { findNews } from './list.ts'
import { type RowView, rowInWords } from './row-words.ts'

/** A request with what its homeowner did since somebody looked. */
export interface NewsView {
  row: RowView
  news: { what: string; at: string; when: string }[]
  /** The last entry of the history that is shown here: what is marked as seen. */
  upTo: number
}

export function newsInWords(
  found: Awaited<ReturnType<typeof findNews>>,
  business: Business,
  now: Temporal.Instant,
): NewsView[] {
  return found.map(({ row, news }) => ({
    row: rowInWords(row, business, now),
    news: news.map(({ verb, detail, at }) => ({
      what: eventInWords(verb, detail, business),
      at,
      when: momentInWords(at, business.time_zone, 'en'),
    })),
    upTo: news.at(-1)?.id ?? row.news_from ?? 0,
  }))
}
