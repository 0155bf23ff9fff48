import type { Bed } from '../estimate/job/bed.ts'
import { todaysReader } from '../estimate/reading/reader.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import {
  type AddOn,
  type Choices,
  combinations,
  MOST_ADD_ONS,
  MOST_PICKS,
  type Pick,
  withTaken,
} from '../estimate/understood/choices.ts'
import { unitSystem } from '../estimate/units/units.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { Typed } from '../http/posted.ts'
import type { Priced } from './pricing.ts'

/** Reads what a quote lets its homeowner choose; null where nothing, and of what can't be read, beside a fault. */
export function readChoices(fields: FormFields, priced: Priced): Choices | null {
  const picks: Pick[] = []
  const addOns: AddOn[] = []
  for (const row of fields.rows('picks').slice(0, MOST_PICKS)) picks.push(...readPick(row, picks, priced))
  for (const row of fields.rows('addOns').slice(0, MOST_ADD_ONS))
    addOns.push(...readAddOn(row, addOns, priced))
  return picks.length + addOns.length > 0 ? { picks, addOns } : null
}

/** Whether every combination of them can be priced. */
export function canBeTogether(choices: Choices, priced: Priced): boolean {
  return combinations(choices).every(
    taken => withTaken(priced, choices, taken, priced.rates.body).recalled.ok,
  )
}

function readPick(row: FormFields, before: Pick[], priced: Priced): Pick[] {
  const [slug, typed] = [row.text('finish'), row.text('depth')]
  if (slug === '' && typed === '') return []
  const table = priced.rates.body
  const bed = readBed(row, priced)
  if (slug !== '' && !table.finishes.some(finish => finish.slug === slug)) {
    row.fault('finish', 'That material isn’t in your rates anymore.')
    return []
  }
  const depth = typed === '' ? null : readDepth(row, typed, table)
  if (bed === undefined || depth === undefined) return []
  const pick = { bed, finish: slug || null, depth }
  const beds = priced.job.beds.filter((_bed, index) => bed === null || bed === index)
  if (beds.every(one => isAsIs(one, pick))) {
    row.fault(slug === '' ? 'depth' : 'finish', 'The price has that already.')
    return []
  }
  const other = before.find(one => bed === null || one.bed === null || one.bed === bed)
  if (other && ((other.finish && pick.finish) || (other.depth && pick.depth))) {
    const [field, what] = other.finish && pick.finish ? ['finish', 'material'] : ['depth', 'depth']
    row.fault(field!, `The other choice changes the ${what} of that bed, too.`)
    return []
  }
  return [{ ...pick, was: { finish: alike(beds, finishOf), depth: alike(beds, depthOf) } }]
}

function readDepth(row: FormFields, typed: string, { units }: RateTable): string | undefined {
  const reading = todaysReader.depth(typed, unitSystem(units))
  if (reading.ok) return reading.value.toFixed()
  row.fault('depth', `Give a depth, such as 2 ${unitSystem(units).depth}.`)
  return undefined
}

function readAddOn(row: FormFields, before: AddOn[], priced: Priced): AddOn[] {
  const slug = row.text('extra')
  if (slug === '') return []
  const bed = readBed(row, priced)
  if (bed === undefined) return []
  if (!priced.rates.body.extras.some(extra => extra.slug === slug)) {
    row.fault('extra', 'That extra isn’t in your rates anymore.')
    return []
  }
  const { extras, beds } = priced.job
  const has = (had: { slug: string }[]) => had.some(extra => extra.slug === slug)
  const isThere = has(extras) || (bed === null ? beds.every(one => has(one.extras)) : has(beds[bed]!.extras))
  if (isThere) row.fault('extra', 'The price has that already.')
  const isTwice = before.some(
    one => one.extra === slug && (bed === null || one.bed === null || one.bed === bed),
  )
  if (isTwice) row.fault('extra', 'You offer that above already.')
  return isThere || isTwice ? [] : [{ bed, extra: slug }]
}

// '' is for all of them.
function readBed(row: FormFields, { job }: Priced): number | null | undefined {
  const typed = row.text('bed')
  if (typed === '') return null
  if (/^\d{1,3}$/.test(typed) && Number(typed) < job.beds.length) return Number(typed)
  row.fault('bed', 'That bed isn’t there anymore.')
  return undefined
}

function isAsIs(bed: Bed, { finish, depth }: Omit<Pick, 'was'>): boolean {
  return (finish === null || finishOf(bed) === finish) && (depth === null || depthOf(bed) === depth)
}

function finishOf({ finish }: Bed): string {
  return finish.slug
}

function depthOf({ depth }: Bed): string {
  return depth.toFixed()
}

function alike(beds: Bed[], of: (bed: Bed) => string): string | null {
  const [first, ...others] = beds.map(of)
  return first !== undefined && others.every(other => other === first) ? first : null
}

/** Choices as the fields of the form. */
export function choicesTyped(choices: Choices | null): Typed {
  const { picks, addOns } = choices ?? { picks: [], addOns: [] }
  const bedTyped = (bed: number | null) => (bed === null ? '' : String(bed))
  return Object.fromEntries([
    ...picks.flatMap(({ bed, finish, depth }, index) => [
      [`picks.${index}.bed`, bedTyped(bed)],
      [`picks.${index}.finish`, finish ?? ''],
      [`picks.${index}.depth`, depth ?? ''],
    ]),
    ...addOns.flatMap(({ bed, extra }, index) => [
      [`addOns.${index}.bed`, bedTyped(bed)],
      [`addOns.${index}.extra`, extra],
    ]),
  ])
}

/** Whether two are the same. */
export function sameChoices(one: Choices | null, other: Choices | null): boolean {
  return JSON.stringify(choicesTyped(one)) === JSON.stringify(choicesTyped(other))
}
