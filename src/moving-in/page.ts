import type { FastifyReply } from 'fastify'
import { requireBusiness } from '../business/queries.ts'
import type { Deps } from '../deps.ts'
import type { Errors, Typed } from '../http/posted.ts'
import { dayOfMoment } from '../people/known.ts'
import { COLUMNS } from './columns.ts'
import { fieldFor } from './form.ts'
import { previewFile } from './moving-in.ts'
import { type FileRow, findAlikeOfFile, findTakenIn, requireFile } from './queries.ts'
import type { RowFault } from './records.ts'

const MOST_FAULTS = 200
const MOST_SHOWN = 10

/** What came of a file: '12 customers, 14 properties, 31 beds'. */
export interface FileView {
  id: number
  name: string
  counts: string
  when: string
  isBack: boolean
}

export interface StartPage {
  files: FileView[]
}

export interface FilePage {
  id: number
  name: string
  columns: { name: string; label: string; hint: string | null }[]
  options: { value: string; label: string }[]
  counts: string
  faults: RowFault[]
  moreFaults: number
  first: { row: number; who: string; where: string; beds: string }[]
  more: number
  values: Typed
}

export interface TakenInPage extends FileView {
  alike: { id: number; name: string }[]
}

/** The page on which a file is chosen, and those that were taken in. */
export async function showStart(deps: Deps, reply: FastifyReply, errors?: Errors): Promise<FastifyReply> {
  const { time_zone } = await requireBusiness(deps.db)
  const files = (await findTakenIn(deps.db)).map(row => viewFile(row, time_zone))
  return reply.page('moving-in/start', { files, errors: errors ?? {} }, errors ? 422 : 200)
}

/**
 * The page of a file: what would be taken in and what is wrong; or what came of it.
 * @throws {NotFound} when there is none
 */
export async function showFile(
  deps: Deps,
  reply: FastifyReply,
  id: number,
  again?: { typed: Typed; errors: Errors; status: number },
): Promise<FastifyReply> {
  const row = await requireFile(deps.db, id)
  const status = again?.status ?? 200
  const errors = again?.errors ?? {}
  if (row.taken_in_at !== null) {
    const { time_zone } = await requireBusiness(deps.db)
    const alike = await findAlikeOfFile(deps.db, id)
    return reply.page('moving-in/taken-in', { ...viewFile(row, time_zone), alike, errors }, status)
  }
  const { header, matched, customers, faults } = await previewFile(deps, id)
  const places = customers.flatMap(one => one.places)
  const values = Object.fromEntries(COLUMNS.map(({ name }) => [fieldFor(name), String(matched[name] ?? '')]))
  const page: FilePage = {
    id,
    name: row.file_name,
    columns: COLUMNS.map(one => ({
      name: fieldFor(one.name),
      label: one.label,
      hint: 'hint' in one ? (one.hint ?? null) : null,
    })),
    options: [
      { value: '', label: 'Not in the file' },
      ...header.map((name, at) => ({ value: String(at), label: `${letterOf(at)}: ${name.slice(0, 40)}` })),
    ],
    counts: countsInWords({
      customers: customers.length,
      places: places.length,
      beds: places.reduce((sum, { beds }) => sum + beds.length, 0),
    }),
    faults: faults.slice(0, MOST_FAULTS),
    moreFaults: Math.max(0, faults.length - MOST_FAULTS),
    first: customers.slice(0, MOST_SHOWN).map(one => ({
      row: one.row,
      who: [one.name, one.phone, one.email].filter(Boolean).join(', '),
      where: one.places
        .map(({ street, postcode }) => [street, postcode].filter(Boolean).join(', '))
        .join('; '),
      beds: bedsInWords(one.places.reduce((sum, { beds }) => sum + beds.length, 0)),
    })),
    more: Math.max(0, customers.length - MOST_SHOWN),
    values: again?.typed ?? values,
  }
  return reply.page('moving-in/file', { ...page, errors }, status)
}

function viewFile(row: FileRow, zone: string): FileView {
  return {
    id: row.id,
    name: row.file_name,
    counts: countsInWords(row),
    when: row.taken_back_at
      ? `taken back ${dayOfMoment(row.taken_back_at, zone)}`
      : `taken in ${dayOfMoment(row.taken_in_at!, zone)} by ${row.by}`,
    isBack: row.taken_back_at !== null,
  }
}

function countsInWords({ customers, places, beds }: Record<'customers' | 'places' | 'beds', number>): string {
  const counted = [
    customers === 1 ? '1 customer' : `${customers} customers`,
    places === 1 ? '1 property' : `${places} properties`,
    bedsInWords(beds),
  ]
  return counted.join(', ')
}

function bedsInWords(beds: number): string {
  return beds === 1 ? '1 bed' : `${beds} beds`
}

/** A column as spreadsheets call it: A to Z, then AA. */
function letterOf(index: number): string {
  const last = String.fromCharCode(65 + (index % 26))
  return index < 26 ? last : letterOf(Math.floor(index / 26) - 1) + last
}
