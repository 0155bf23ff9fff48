import { type Business, requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import { FormFields } from '../http/form-fields.ts'
import { momentInWords } from '../language/dates-in-words.ts'
import { rangeInWords } from '../language/money-in-words.ts'
import { MOST_KEPT } from '../requests/maybe-junk/hold.ts'
import { countMaybeJunk, listMaybeJunk } from '../requests/maybe-junk/queries.ts'
import { KEPT_DAYS } from '../requests/maybe-junk/sweep.ts'

const SHOWN = 50
const LONGEST_SHOWN = 400

/** One that is held, as its row shows it. */
export interface MaybeJunkView {
  number: string
  name: string
  came: string
  price: string
  /** Street, phone, email, and what there is besides: all as plain text, since none of it may be tapped. */
  facts: string[]
  note: string
  reasons: string[]
}

export interface MaybeJunkPage {
  rows: MaybeJunkView[]
  /** Whether these are the ones that somebody said are junk. */
  junk: boolean
  held: number
  junkCount: number
  most: number
  days: number
  more: string | null
}

/** The list of what is held as maybe junk as an address asks for it: `show=junk` for what was said to be, `after` for a page further on. */
export async function viewMaybeJunkList(deps: Deps, query: unknown): Promise<MaybeJunkPage> {
  const asked = new FormFields(query)
  const junk = asked.text('show') === 'junk'
  const [, points, id] = /^(\d{1,6})@(\d{1,15})$/.exec(asked.text('after')) ?? []
  const after = id ? { points: Number(points), id: Number(id) } : null
  const business = await requireBusiness(deps.db)
  const { held, junk: junkCount } = await countMaybeJunk(deps.db)
  const found = await listMaybeJunk(deps.db, { junk, after, most: SHOWN + 1 })
  const shown = found.slice(0, SHOWN)
  const last = shown.at(-1)
  const goesOn = found.length > SHOWN && last
  return {
    rows: shown.map(row => inWords(row, business)),
    junk,
    held,
    junkCount,
    most: MOST_KEPT,
    days: KEPT_DAYS,
    more: goesOn ? `/queue/maybe-junk?${junk ? 'show=junk&' : ''}after=${last.points}%40${last.id}` : null,
  }
}

function inWords(row: Awaited<ReturnType<typeof listMaybeJunk>>[number], business: Business): MaybeJunkView {
  const { sending, ballpark, photos } = row
  const { street, postcode, phone, email, told, preferredTimes, gate, dog } = sending
  const beds = told.beds.length
  const photosOf = Number(photos)
  const facts = [
    [street, postcode].filter(Boolean).join(', '),
    phone,
    email,
    beds === 0 ? '' : `${beds} ${beds === 1 ? 'bed' : 'beds'}`,
    photosOf === 0 ? '' : `${photosOf} ${photosOf === 1 ? 'photo' : 'photos'}`,
    preferredTimes,
    gate && `gate: ${gate}`,
    dog && `dog: ${dog}`,
  ]
  return {
    number: row.number,
    name: sending.name,
    came: momentInWords(row.arrived_at, business.time_zone, 'en'),
    price: ballpark ? rangeInWords(ballpark.range.low, ballpark.range.high, business.currency) : '',
    facts: facts.filter(fact => fact !== '').map(cut),
    note: cut(sending.note),
    reasons: row.reasons.map(({ words }) => words),
  }
}

function cut(text: string): string {
  return text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN).toWellFormed()} …` : text
}
