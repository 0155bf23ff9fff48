import type { Language } from '../db/schema.ts'
import { type Ballpark, workOutBallpark } from '../estimate/ballpark.ts'
import type { Job } from '../estimate/bed.ts'
import type { RateTable } from '../estimate/rate-table.ts'
import { type BedView, viewReadBeds } from './bed-view.ts'
import type { Contact } from './contact-form.ts'
import { type BedsForm, fieldsOf, queryOf } from './form.ts'
import { type RangeView, viewRange } from './range-view.ts'

/** What the page that asks for name and address needs. */
export interface ContactPage {
  beds: (BedView | null)[]
  range: RangeView
  /** The beds again, as hidden fields. */
  hidden: [name: string, value: string][]
  submissionKey: string
  /** The range that the page shows, to be sent along: what is taken in must not be another one. */
  shown: string
  values: Contact
  units: RateTable['units']
  back: string
  here: string
  scripts: string[]
}

/** Makes the page for beds that have been read; `contact` is what was typed so far. */
export function viewContact(
  form: BedsForm,
  job: Job,
  contact: Contact,
  submissionKey: string,
  table: RateTable,
  language: Language,
): ContactPage {
  const ballpark = workOutBallpark(job, table)
  const hidden = fieldsOf({ ...form, postcode: '' })
  const query = queryOf({ ...form, postcode: contact.postcode })
  return {
    beds: viewReadBeds(job.beds, table, language),
    range: viewRange(ballpark, form, table, language),
    hidden,
    submissionKey,
    shown: shownOf(ballpark),
    values: contact,
    units: table.units,
    back: `/?${query}`,
    here: `/request?${query}&key=${submissionKey}`,
    scripts: ['live.js'],
  }
}

export function shownOf({ range }: Ballpark): string {
  return `${range.low} ${range.likely} ${range.high}`
}
