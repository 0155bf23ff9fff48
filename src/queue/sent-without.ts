import type { SentAs } from '../db/schema/places.ts'
import type { RequestRow } from '../requests/queries.ts'

const WORDS: Record<SentAs, string> = {
  beds: 'No beds described yet.',
  photos: 'Photos only: the homeowner didn’t measure.',
  'last year': 'The homeowner wants the same as last year, and was told nothing of what we know.',
  look: 'The homeowner didn’t measure and wants us to come and look.',
}

/** How a request without beds was sent, as the staff read it; null where there are beds. */
export function sentWithoutInWords({ sent_as, told }: Pick<RequestRow, 'sent_as' | 'told'>): string | null {
  return told.beds.length > 0 ? null : WORDS[sent_as]
}
