import type { Kysely } from 'kysely'
import { requireBusiness } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import { unitSystem } from '../estimate/units/units.ts'
import type { Typed } from '../http/posted.ts'
import { t } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { quantityInWords } from '../language/quantity-in-words.ts'
import { mapAddress, telephone } from '../lib/contact-links.ts'
import { dayOf } from '../lib/dates.ts'
import { type CautionView, viewCautions } from '../requests/caution-view.ts'
import { requireRequest } from '../requests/queries.ts'
import { findAgreedJob } from './agreed-job.ts'
import { digs } from './dig-ticket.ts'
import { type DigView, viewDig } from './dig-view.ts'
import { findSheetSettings } from './settings.ts'
import { type SheetStop, viewInAll, viewSheetBeds } from './sheet-beds.ts'
import { findStopsDone } from './stops-done.ts'

/** What the crew carries for one job, without any money. */
export interface SheetPage {
  number: string
  customer: string
  where: string
  map: string
  phone: { words: string; address: string } | null
  days: string
  facts: [term: string, text: string][]
  takes: string[]
  once: string
  barrow: string
  stops: SheetStop[]
  /** The stops that are checked off, counted from 0, and whether they can be. */
  done: number[]
  mayCheck: boolean
  /** Whether the first of its days has come, so that there is something to tell of it. */
  hasBegun: boolean
  count: number
  cautions: CautionView[]
  /** Null of a job that doesn't dig. */
  dig: DigView | null
  isReadable: boolean
  values: Typed
}

/** Undefined where the job was never booked. */
export async function viewSheet(
  deps: Deps,
  number: string,
  language: Language,
): Promise<SheetPage | undefined> {
  const { db } = deps
  const wanted = await requireRequest(db, number)
  const days = await findDaysOf(db, wanted.id)
  if (days.length === 0) return undefined
  const business = await requireBusiness(db)
  const settings = await findSheetSettings(db, business.units)
  const agreed = await findAgreedJob(db, wanted.id)
  const place = await findPlaceNotes(db, wanted.id)
  const dig =
    agreed && digs(agreed.job, agreed.table)
      ? await viewDig(deps, business, { id: wanted.id, days }, settings, language)
      : null
  const { barrow } = settings
  const { volume } = unitSystem(business.units)
  return {
    ...{ number: wanted.number, customer: wanted.customer_name },
    where: [wanted.street, wanted.postcode].filter(Boolean).join(', '),
    map: mapAddress(wanted),
    phone: telephone(wanted.phone),
    days: days.map(day => dayInWords(day, language)).join(', '),
    facts: factsOf({ ...wanted, ...place }, language),
    ...(agreed ? viewInAll(agreed, barrow, language) : { takes: [], once: '' }),
    barrow: t(language, 'sheet.barrow', { size: quantityInWords(barrow, volume, language) }),
    stops: agreed ? viewSheetBeds(agreed, barrow, language) : [],
    done: [...(await findStopsDone(db, wanted.id))],
    hasBegun: days[0]! <= dayOf(deps.now(), business.time_zone),
    mayCheck: wanted.stage === 'booked' || wanted.stage === 'part done',
    count: agreed?.job.beds.length ?? 0,
    cautions: agreed ? viewCautions(agreed.job, agreed.shopping, agreed.table, language) : [],
    dig,
    isReadable: agreed !== undefined,
    values: { home: place.home, pile: place.pile, ...dig?.values },
  }
}

interface Facts {
  gate: string
  dog: string
  home: string
  pile: string
  note: string
  rules: string
}

function factsOf({ gate, dog, home, pile, note, rules }: Facts, language: Language): SheetPage['facts'] {
  const facts: SheetPage['facts'] = [
    [t(language, 'days.gate'), gate],
    [t(language, 'days.dog'), dog],
    [t(language, 'sheet.home'), home],
    [t(language, 'sheet.pile'), pile],
    [t(language, 'stops.rules'), rules],
    [t(language, 'sheet.note'), note],
  ]
  return facts.filter(([, text]) => text !== '')
}

/** The days on which a job is booked, in order; none where it isn't. */
async function findDaysOf(db: Kysely<Database>, quoteRequestId: number): Promise<string[]> {
  const rows = await db
    .selectFrom('booking')
    .innerJoin('booking_day', 'booking_day.booking_id', 'booking.id')
    .select('booking_day.day')
    .where('quote_request_id', '=', quoteRequestId)
    .where('called_off_at', 'is', null)
    .orderBy('booking_day.day')
    .execute()
  return rows.map(({ day }) => day)
}

/** What the crew has to know of the place, and the rules of the firm whose it is. */
async function findPlaceNotes(db: Kysely<Database>, quoteRequestId: number) {
  const row = await db
    .selectFrom('quote_request')
    .innerJoin('place', 'place.id', 'quote_request.place_id')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .select(['place.home', 'place.pile'])
    .select(eb =>
      eb
        .selectFrom('firm')
        .innerJoin('customer as one', 'one.id', 'firm.customer_id')
        .select('firm.rules')
        .whereRef('one.head_id', '=', 'customer.head_id')
        .orderBy('firm.saved_at', 'desc')
        .limit(1)
        .as('rules'),
    )
    .where('quote_request.id', '=', quoteRequestId)
    .executeTakeFirstOrThrow()
  return { ...row, rules: row.rules ?? '' }
}

/** Keeps who must be home and where the pile goes with the place of a request. */
export async function keepPlaceNotes(
  db: Kysely<Database>,
  quoteRequestId: number,
  notes: { home: string; pile: string },
): Promise<void> {
  await db
    .updateTable('place')
    .set(notes)
    .where('id', '=', eb =>
      eb.selectFrom('quote_request').select('place_id').where('id', '=', quoteRequestId),
    )
    .execute()
}
