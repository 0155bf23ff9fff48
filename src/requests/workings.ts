import { type Ballpark, narrowsUnasked, workOutBallpark } from '../estimate/ballpark/ballpark.ts'
import { type BallparkAnswer, ballparkAnswer } from '../estimate/ballpark/present.ts'
import type { Told } from '../estimate/job/bed.ts'
import { readTold } from '../estimate/reading/read-beds.ts'
import { fieldOf } from '../estimate/reading/told-fields.ts'
import type { JobUnderstood } from '../estimate/understood/format.ts'
import { recordJob } from '../estimate/understood/record.ts'
import { type Around, drawPage } from '../http/render.ts'
import { type Key, t } from '../language/catalogue.ts'
import { cautionInWords, sourceInWords } from '../language/caution-in-words.ts'
import type { Language } from '../language/language.ts'
import type { Contact } from './contact-form.ts'
import { againstShown, type Shown, viewContact, viewContactPart } from './contact-view.ts'
import { type BedsForm, toldOf } from './form.ts'
import { viewBedsForm } from './form-view.ts'
import type { OpenTable } from './open-table.ts'
import type { PhotoFields } from './photos/form.ts'
import { bedFaultInWords } from './sold-out.ts'
import { waysOffered } from './ways.ts'

/** A form as typed, what stands around its page, and what was typed besides, to be carried along. */
export interface FormAsked {
  form: BedsForm
  showFaults: boolean
  carried: [name: string, value: string][]
  around: Around
}

export interface ContactAsked {
  form: BedsForm
  contact: Contact
  submissionKey: string
  begun: string
  photos: PhotoFields | null
  errors: Record<string, string>
  around: Around
}

export interface TakingAsked extends Shown {
  told: Told
}

export interface Taking {
  understood: JobUnderstood
  ballpark: Ballpark
  news: Key | null
}

export interface BallparkAsked {
  body: unknown
  language: Language
}

/** What other programs are answered: a ballpark, or with 422 every fault of the beds. */
export type Answered =
  | { status: 200; answer: BallparkAnswer }
  | { status: 422; answer: { errors: { field: string; message: string }[] } }

/**
 * What takes long when the beds are many: of plain data, and of the rates alone, so that it is worked out in this
 * thread or in another one alike.
 */
export const workings = {
  /** The page of the form. */
  form({ form, showFaults, carried, around }: FormAsked, table: OpenTable): string {
    const page = viewBedsForm(form, table, around.language, showFaults)
    const ways = waysOffered(around.business?.photos_each ?? 0)
    return drawPage('requests/form', { ...page, carried, ways }, around)
  },

  /** What of it follows the typing. */
  live({ form, around }: Pick<FormAsked, 'form' | 'around'>, table: OpenTable): string {
    const page = viewBedsForm(form, table, around.language, false)
    const { beds, soldOut, range, soFar, strip, notServed, errors } = page
    return drawPage('requests/live', { beds, soldOut, range, soFar, strip, notServed, errors }, around)
  },

  /** The page that asks for name and address; '' where the beds can't be read. */
  contact(asked: ContactAsked, table: OpenTable): string {
    const { form, contact, submissionKey, begun, photos, errors, around } = asked
    const reading = readTold(toldOf(form), table)
    if (!reading.ok) return ''
    const page = viewContact(form, reading.job, contact, submissionKey, table, around.language)
    return drawPage('requests/contact', { ...page, begun, photos, errors }, around)
  },

  /** What of that follows the typing of the ZIP or postcode; '' where the beds can't be read. */
  contactPart({ form, around }: Pick<FormAsked, 'form' | 'around'>, table: OpenTable): string {
    const reading = readTold(toldOf(form), table)
    if (!reading.ok) return ''
    const part = viewContactPart(form, reading.job, table, around.language)
    return drawPage('requests/contact-part', part, around)
  },

  /** What is understood of what is sent in, its ballpark, and what there is to tell before it is taken; null where the beds can't be read. */
  taking({ told, ...shown }: TakingAsked, table: OpenTable): Taking | null {
    const reading = readTold(told, table)
    if (!reading.ok) return null
    const { job } = reading
    const ballpark = workOutBallpark(job, table.whole, { narrower: narrowsUnasked(job.beds.length) })
    const understood = recordJob(job, table.units)
    return { understood, ballpark, news: againstShown(shown, job, ballpark, table) }
  },

  /** The answer to other programs. */
  ballpark({ body, language }: BallparkAsked, table: OpenTable): Answered {
    const reading = readTold(body, table)
    const wanted = fieldOf(body, 'narrower') ?? null
    const errors = reading.ok
      ? []
      : reading.faults.map(fault => ({
          field: fault.field,
          message: bedFaultInWords(fault, table, language),
        }))
    if (wanted !== null && typeof wanted !== 'boolean')
      errors.push({ field: 'narrower', message: t(language, 'requests.narrower') })
    if (!reading.ok || errors.length > 0) return { status: 422, answer: { errors } }
    const narrower = wanted === true || (wanted === null && narrowsUnasked(reading.job.beds.length))
    const ballpark = workOutBallpark(reading.job, table.whole, { narrower })
    const answer = ballparkAnswer(ballpark, caution => ({
      text: cautionInWords(caution, table.whole, language),
      source: sourceInWords(caution.source, language),
    }))
    const doubtful = Object.entries(reading.instead).map(([field, or]) => ({
      field,
      read: reading.echoes[field]!.replace(/ \?$/, ''),
      or,
    }))
    return { status: 200, answer: doubtful.length > 0 ? { ...answer, doubtful } : answer }
  },
}

export type Workings = typeof workings
