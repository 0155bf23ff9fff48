import type { ToldAs } from '../outbox/entry-words.ts'
import type { About } from '../outbox/message.ts'

/** What an entry says in a mail: the street only where it may be said. */
export function toldIn({ row, typed, business, language }: About, link: { address: string } | null): ToldAs {
  const location = typed ? [typed.street, typed.postcode].filter(Boolean).join(', ') : ''
  return { number: row.number, business: business.name, language, location, link: link?.address ?? '' }
}
