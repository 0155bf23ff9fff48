import type { Told } from '../estimate/job/bed.ts'
import { MOST_BEDS } from '../estimate/reading/read-beds.ts'
import { isShapeName, offeredShapes, sizeFields } from '../estimate/shapes/all-shapes.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { differsInNewWork } from '../estimate/tax/rates-at.ts'
import { FormFields } from '../http/form-fields.ts'
import { oneLine } from '../lib/typed-text.ts'
import { type BedTyped, bedTyped, ownSizes, postedBeds } from './bed-typed.ts'

/** The homeowner's form as typed. */
export interface BedsForm {
  beds: BedTyped[]
  measuredBy: string
  /** 'new' where all the beds are; asked only where it matters for tax. */
  work: string
  extras: string[]
  postcode: string
}

const DEFAULTS = { count: '1', planted: 'half', lying: 'unsure', depth: '', measuredBy: '' }
const BY_EYE = 'eye'
const [TOP_UP, NEW] = ['top-up', 'new']
/** Longer than anything that could be understood, short enough to be shown again. */
const LONGEST = 210

/**
 * Reads the flat fields of the form or of an address; what is missing gets its default. A link may name the `material`
 * of the first bed. Never throws.
 */
export function readBedsForm(flat: unknown, table: RateTable): BedsForm {
  const fields = new FormFields(flat)
  const beds = postedBeds(fields)
  const asked = sizeFields(offeredShapes()).map(({ name }) => name)
  const first = blankBed(table, { finish: fields.text('material') })
  return {
    beds: beds.length > 0 ? beds.map(bed => readBed(bed, asked, table)) : [first],
    measuredBy: shortened(fields.text('measuredBy')) || BY_EYE,
    work: asksAboutWork(table) && fields.text('work') === NEW ? NEW : TOP_UP,
    extras: fields.ticks('extras').map(shortened).filter(Boolean),
    postcode: shortened(fields.text('postcode')),
  }
}

/** Whether homeowners are asked if their beds are new. */
export function asksAboutWork({ tax }: Pick<RateTable, 'tax'>): boolean {
  return tax?.newWork.asked === true && differsInNewWork(tax)
}

// Every size that the form asks for, and no other. A shape that it once offered is asked for again.
function readBed(posted: FormFields, asked: string[], table: RateTable): BedTyped {
  const bed = bedTyped(posted, shortened, blankBed(table))
  const shape = isOffered(bed.shape) ? bed.shape : ''
  const measuredBy = shortened(posted.text('measuredBy'))
  return {
    ...bed,
    shape,
    measuredBy,
    sizes: Object.fromEntries(asked.map(name => [name, bed.sizes[name] ?? ''])),
  }
}

function isOffered(shape: string): boolean {
  return isShapeName(shape) && offeredShapes().includes(shape)
}

/** A bed with no size typed yet; finish, plants, what lies there and the depth as in the bed before it. */
function blankBed(table: RateTable, before?: Partial<BedTyped>) {
  const canBePicked = table.finishes.some(({ slug }) => slug === before?.finish)
  return {
    ...DEFAULTS,
    shape: 'rectangle',
    sizes: {},
    finish: (canBePicked ? before?.finish : table.finishes[0]?.slug) ?? '',
    planted: before?.planted ?? DEFAULTS.planted,
    lying: before?.lying ?? DEFAULTS.lying,
    depth: before?.depth ?? DEFAULTS.depth,
    ...(before?.layers === 'none' && { layers: before.layers }),
  }
}

export function withBedAdded(form: BedsForm, table: RateTable): BedsForm {
  if (form.beds.length >= MOST_BEDS) return form
  return { ...form, beds: [...form.beds, blankBed(table, form.beds.at(-1))] }
}

/** With one more bed at the end, the same as the one at `index`, sizes too. */
export function withBedCopied(form: BedsForm, index: number): BedsForm {
  const bed = form.beds[index]
  if (!bed || form.beds.length >= MOST_BEDS) return form
  return { ...form, beds: [...form.beds, bed] }
}

export function withBedTakenOut(form: BedsForm, index: number, table: RateTable): BedsForm {
  const beds = form.beds.filter((_bed, at) => at !== index)
  return { ...form, beds: beds.length > 0 ? beds : [blankBed(table)] }
}

/** The form with another spelling in one field, 'beds.0.sizes.length' or 'beds.0.depth'; as it was where there is no such field. */
export function withSpelling(form: BedsForm, field: string, spelling: string): BedsForm {
  const [, index, name] = /^beds\.(\d{1,2})\.(?:sizes\.)?(\w+)$/.exec(field) ?? []
  const change = (bed: BedTyped): BedTyped => {
    if (name === 'depth') return { ...bed, depth: shortened(spelling) }
    const known = name !== undefined && Object.hasOwn(bed.sizes, name)
    return known ? { ...bed, sizes: { ...bed.sizes, [name]: shortened(spelling) } } : bed
  }
  return { ...form, beds: form.beds.map((bed, at) => (String(at) === index ? change(bed) : bed)) }
}

/** What the form tells the estimate: each bed with the sizes of its own shape only, and how it was measured. */
export function toldOf(form: BedsForm): Told {
  const { measuredBy, work } = form
  const told = work === NEW ? { work } : {}
  const beds = form.beds.map(bed => ({
    ...bed,
    sizes: ownSizes(bed),
    measuredBy: bed.measuredBy || measuredBy,
    ...told,
  }))
  return { beds, extras: form.extras, postcode: form.postcode }
}

/** The form's fields by name, without those that have their default: for an address, or as hidden fields. */
export function fieldsOf(form: BedsForm): [name: string, value: string][] {
  const fields: [string, string][] = []
  form.beds.forEach((bed, index) => {
    const put = (name: string, value: string) => fields.push([`beds.${index}.${name}`, value])
    put('shape', bed.shape)
    put('finish', bed.finish)
    for (const [name, value] of Object.entries(bed.sizes)) if (value !== '') put(`sizes.${name}`, value)
    for (const [name, usual] of Object.entries(DEFAULTS)) {
      const value = bed[name as keyof typeof DEFAULTS]
      if (value !== undefined && value !== usual) put(name, value)
    }
    if (bed.layers === 'none') put('layers', bed.layers)
  })
  if (form.measuredBy !== BY_EYE) fields.push(['measuredBy', form.measuredBy])
  if (form.work === NEW) fields.push(['work', form.work])
  for (const slug of form.extras) fields.push(['extras[]', slug])
  if (form.postcode !== '') fields.push(['postcode', form.postcode])
  return fields
}

export function queryOf(form: BedsForm): string {
  return new URLSearchParams(fieldsOf(form)).toString()
}

function shortened(typed: string): string {
  return oneLine(typed).slice(0, LONGEST)
}
