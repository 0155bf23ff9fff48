import { type Ballpark, narrowsUnasked, workOutBallpark } from '../estimate/ballpark/ballpark.ts'
import type { Job } from '../estimate/job/bed.ts'
import { travelCharge } from '../estimate/table/travel.ts'
import type { Key } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { oneLine } from '../lib/typed-text.ts'
import { type BedView, viewReadBeds } from './bed-view.ts'
import type { Contact } from './contact-form.ts'
import { type BedsForm, fieldsOf, queryOf } from './form.ts'
import type { OpenTable } from './open-table.ts'
import type { PhotoFields } from './photos/form.ts'
import { type RangeView, viewRange } from './range-view.ts'
import { isOutside } from './served.ts'

/** What the page that asks for name and address needs. */
export interface ContactPage {
  beds: (BedView | null)[]
  range: RangeView
  /** The beds again, as hidden fields. */
  hidden: [name: string, value: string][]
  submissionKey: string
  /** When it was given out, signed. */
  begun: string
  /** The range that the page shows and for which ZIP or postcode, to be sent along: see againstShown. */
  shown: string
  shownPostcode: string
  /** Whether the ZIP or postcode is one that isn’t served. */
  notServed: boolean
  values: Contact
  photos: PhotoFields | null
  back: string
  here: string
  scripts: string[]
}

/** What of it follows the typing of the ZIP or postcode. */
export type ContactPart = Pick<ContactPage, 'range' | 'shown' | 'shownPostcode' | 'notServed'>

/** What the page says that it showed; a program that posts without having asked for it says nothing. */
export type Shown = Partial<Pick<ContactPage, 'shown' | 'shownPostcode'>>

/** Makes the page for beds that have been read; `contact` is what was typed so far. */
export function viewContact(
  form: BedsForm,
  job: Job,
  contact: Contact,
  submissionKey: string,
  table: OpenTable,
  language: Language,
): Omit<ContactPage, 'photos' | 'begun'> {
  const hidden = fieldsOf({ ...form, postcode: '' })
  const query = queryOf({ ...form, postcode: contact.postcode })
  return {
    ...viewContactPart(form, job, table, language),
    beds: viewReadBeds(job.beds, table.whole, language),
    hidden,
    submissionKey,
    values: contact,
    back: `/?${query}`,
    here: `/request?${query}`,
    scripts: ['live.js'],
  }
}

/** The range for beds that have been read, and what is sent along of having shown it. */
export function viewContactPart(form: BedsForm, job: Job, table: OpenTable, language: Language): ContactPart {
  const ballpark = workOutBallpark(job, table.whole, { narrower: narrowsUnasked(job.beds.length) })
  return {
    range: viewRange(ballpark, form, table.whole, language),
    shown: shownOf(ballpark),
    shownPostcode: job.postcode,
    notServed: isOutside(job.postcode, table),
  }
}

/**
 * What to tell before a job is taken in whose range is not the one that was shown, as a key of the catalogue; null
 * when nothing has to be. Nobody sends in a range that they haven't seen, travel to the first ZIP given included.
 */
export function againstShown(
  { shown, shownPostcode }: Shown,
  job: Job,
  ballpark: Ballpark,
  table: OpenTable,
): Key | null {
  if (shown === undefined || shownPostcode === undefined) return null
  const served = (postcode: string) => travelCharge(postcode, table) !== null
  if (!served(job.postcode) && served(oneLine(shownPostcode))) return 'contact.not-served'
  return shown === shownOf(ballpark) ? null : 'contact.range-changed'
}

function shownOf({ range }: Ballpark): string {
  return `${range.low} ${range.likely} ${range.high}`
}
