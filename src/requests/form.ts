import type { BedTold, Told } from '../estimate/job/bed.ts'
import { MOST_BEDS } from '../estimate/reading/read-beds.ts'
import { isShapeName, offeredShapes, shapeOf, sizeFields } from '../estimate/shapes/all-shapes.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { type Field, groupOf, nestFields, textOf } from '../http/nested-fields.ts'
import { oneLine } from '../lib/typed-text.ts'

/** The homeowner's form as typed: a bed has the sizes of every shape that was tried, so that none is lost. */
export interface BedsForm {
  beds: BedFields[]
  measuredBy: string
  extras: string[]
  postcode: string
}

export type BedFields = Omit<BedTold, 'measuredBy' | 'count'> & { count: string }

const DEFAULTS = { count: '1', planted: 'half', lying: 'unsure', depth: '' }
const BY_EYE = 'eye'
/** Longer than anything that could be understood, short enough to be shown again. */
const LONGEST = 210

/** Reads the flat fields of the form or of an address; what is missing gets its default. Never throws. */
export function readBedsForm(flat: unknown, table: RateTable): BedsForm {
  const fields = nestFields(flat)
  const beds = Array.isArray(fields.beds) ? fields.beds.slice(0, MOST_BEDS) : []
  return {
    beds: beds.length > 0 ? beds.map(bed => readBedFields(bed, table)) : [newBed(table)],
    measuredBy: text(fields.measuredBy) || BY_EYE,
    extras: Array.isArray(fields.extras) ? fields.extras.map(text).filter(Boolean) : [],
    postcode: text(fields.postcode),
  }
}

function readBedFields(bed: Field, table: RateTable): BedFields {
  const fields = groupOf(bed)
  const sizes = groupOf(fields.sizes)
  const blank = newBed(table)
  const typed = (name: keyof typeof DEFAULTS | 'shape' | 'finish') =>
    fields[name] === undefined ? blank[name] : text(fields[name])
  return {
    shape: typed('shape'),
    sizes: Object.fromEntries(sizeFields(offeredShapes()).map(({ name }) => [name, text(sizes[name])])),
    count: typed('count'),
    planted: typed('planted'),
    lying: typed('lying'),
    finish: typed('finish'),
    depth: typed('depth'),
  }
}

/** A bed with nothing typed yet; finish, plants and what lies there as in the bed before it. */
function newBed(table: RateTable, before?: BedFields): BedFields {
  const canBePicked = table.finishes.some(({ slug }) => slug === before?.finish)
  return {
    ...DEFAULTS,
    shape: 'rectangle',
    sizes: {},
    finish: (canBePicked ? before?.finish : table.finishes[0]?.slug) ?? '',
    planted: before?.planted ?? DEFAULTS.planted,
    lying: before?.lying ?? DEFAULTS.lying,
  }
}

export function withBedAdded(form: BedsForm, table: RateTable): BedsForm {
  if (form.beds.length >= MOST_BEDS) return form
  return { ...form, beds: [...form.beds, newBed(table, form.beds.at(-1))] }
}

export function withBedTakenOut(form: BedsForm, index: number, table: RateTable): BedsForm {
  const beds = form.beds.filter((_bed, at) => at !== index)
  return { ...form, beds: beds.length > 0 ? beds : [newBed(table)] }
}

/** What the form tells the estimate: each bed with the sizes of its own shape only. */
export function toldOf(form: BedsForm): Told {
  const beds = form.beds.map(bed => ({ ...bed, sizes: ownSizes(bed), measuredBy: form.measuredBy }))
  return { beds, extras: form.extras, postcode: form.postcode }
}

/** The form with beds as told, for going back to them. */
export function formOf(told: Told): BedsForm {
  const beds = told.beds.map(({ measuredBy: _, ...bed }) => ({ ...bed, count: String(bed.count) }))
  return {
    beds,
    measuredBy: told.beds[0]?.measuredBy ?? BY_EYE,
    extras: told.extras,
    postcode: told.postcode,
  }
}

function ownSizes(bed: BedFields): Record<string, string> {
  if (!isShapeName(bed.shape)) return bed.sizes
  return Object.fromEntries(shapeOf(bed.shape).sizes.map(({ name }) => [name, bed.sizes[name] ?? '']))
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
      if (value !== usual) put(name, value)
    }
  })
  if (form.measuredBy !== BY_EYE) fields.push(['measuredBy', form.measuredBy])
  for (const slug of form.extras) fields.push(['extras[]', slug])
  if (form.postcode !== '') fields.push(['postcode', form.postcode])
  return fields
}

export function queryOf(form: BedsForm): string {
  return new URLSearchParams(fieldsOf(form)).toString()
}

function text(field: Field | undefined): string {
  return oneLine(textOf(field)).slice(0, LONGEST)
}
