import type { Business } from '../business/queries.ts'
import type { Key } from '../language/catalogue.ts'
import type { Params } from '../language/sentences.ts'

/** A kind of what is kept: what it is, why, for how long and who reads it, as sentences; see `periodsOf` for their blanks. */
export interface Kind {
  what: Key
  why: Key
  long: Key
  who: Key
}

/** All that is kept: the homeowners' page and README.md's table are written from this. */
export const KINDS: Kind[] = [
  {
    what: 'privacy.contact',
    why: 'privacy.contact-why',
    long: 'privacy.until-asked',
    who: 'privacy.owner-and-crew',
  },
  {
    what: 'privacy.request',
    why: 'privacy.request-why',
    long: 'privacy.until-asked',
    who: 'privacy.owner-and-crew',
  },
  {
    what: 'privacy.photos',
    why: 'privacy.photos-why',
    long: 'privacy.photos-long',
    who: 'privacy.photos-who',
  },
  { what: 'privacy.prices', why: 'privacy.prices-why', long: 'privacy.prices-long', who: 'privacy.office' },
  { what: 'privacy.bills', why: 'privacy.bills-why', long: 'privacy.bills-long', who: 'privacy.accountant' },
  { what: 'privacy.hours', why: 'privacy.hours-why', long: 'privacy.hours-long', who: 'privacy.accountant' },
  {
    what: 'privacy.messages',
    why: 'privacy.messages-why',
    long: 'privacy.messages-long',
    who: 'privacy.messages-who',
  },
  { what: 'privacy.offers', why: 'privacy.offers-why', long: 'privacy.until-asked', who: 'privacy.office' },
  { what: 'privacy.links', why: 'privacy.links-why', long: 'privacy.links-long', who: 'privacy.links-who' },
  { what: 'privacy.counts', why: 'privacy.counts-why', long: 'privacy.counts-long', who: 'privacy.nobody' },
  { what: 'privacy.held', why: 'privacy.held-why', long: 'privacy.held-long', who: 'privacy.office' },
  { what: 'privacy.lists', why: 'privacy.lists-why', long: 'privacy.lists-long', who: 'privacy.owner' },
  {
    what: 'privacy.cookies',
    why: 'privacy.cookies-why',
    long: 'privacy.cookies-long',
    who: 'privacy.cookies-who',
  },
  { what: 'privacy.log', why: 'privacy.log-why', long: 'privacy.log-long', who: 'privacy.owner' },
  { what: 'privacy.access', why: 'privacy.access-why', long: 'privacy.access-long', who: 'privacy.owner' },
  { what: 'privacy.backups', why: 'privacy.backups-why', long: 'privacy.backups-long', who: 'privacy.owner' },
]

/** The periods that the sentences tell, as the owner has set them. */
export function periodsOf({
  keeping,
  photos_months,
  billing,
}: Pick<Business, 'keeping' | 'photos_months' | 'billing'>): Params {
  return {
    requests: keeping.requestsMonths,
    messages: keeping.messagesMonths,
    guesses: keeping.guessesDays,
    files: keeping.filesDays,
    photos: photos_months,
    years: billing.keepYears,
  }
}
