import { isDeepStrictEqual } from 'node:util'
import type { BedTold } from '../estimate/job/bed.ts'
import { readTold } from '../estimate/reading/read-beds.ts'
import { isShapeName, shapeOf } from '../estimate/shapes/all-shapes.ts'
import type { Finish, RateTable } from '../estimate/table/rate-table.ts'
import type { JobUnderstood } from '../estimate/understood/format.ts'
import { recordJob } from '../estimate/understood/record.ts'
import { t } from '../language/catalogue.ts'
import { plainText } from '../queue/plain-text.ts'
import { readSpokenBeds, toldOf } from '../requests/put-in-beds.ts'
import type { ColumnName } from './columns.ts'

/** The cells of one row that tell of its beds; '' where nothing is told. */
export type BedCells = Record<
  Extract<ColumnName, 'bed' | 'count' | 'material' | 'depth' | 'planted' | 'old mulch' | 'measured by'>,
  string
>

export interface BedIn {
  told: BedTold
  understood: JobUnderstood
}

type SayFault = (column: ColumnName, message: string) => void

/** What a bed may be told besides its shape and sizes, each where it isn't as usual. */
const BESIDES = ['work', 'cutOuts', 'noEdge', 'carry', 'stairs', 'slope', 'gate'] as const

/**
 * The beds of a row: spoken ("20 by 5; 9 across"), or in full ("triangle | base: 20 | height: 9"). What is wrong goes to
 * `fault` with the column that it stands in.
 */
export function readBedCells(cells: BedCells, table: RateTable, fault: SayFault): BedIn[] {
  if (cells.bed === '') {
    if (cells.count !== '' || cells.depth !== '') fault('bed', 'This row tells of a bed, but not its size.')
    return []
  }
  const finish = cells.material === '' ? table.finishes[0] : finishNamed(cells.material, table)
  if (!finish) {
    const names = table.finishes.map(({ name }) => name.en).join(', ')
    fault('material', `You have no material “${cells.material.slice(0, 40)}”. Yours are: ${names}.`)
    return []
  }
  const beds = inFull(cells.bed, finish.slug) ?? spoken(cells.bed, finish.slug, table, fault)
  return beds.flatMap(bed => checked(withBesides(bed, cells), table, fault))
}

function finishNamed(typed: string, { finishes }: RateTable): Finish | undefined {
  const named = plainText(typed).trim()
  const words = ({ slug, name }: Finish) => [name.en, name.es, slug].map(word => plainText(word ?? ''))
  return finishes.find(one => words(one).includes(named))
}

function spoken(cell: string, finish: string, table: RateTable, fault: SayFault): BedTold[] {
  const read = readSpokenBeds(cell, finish, table)
  if (read.ok && !read.told.stops) return read.told.beds
  fault('bed', read.ok ? 'A file can’t name stops: leave the name and the colon out.' : read.fault)
  return []
}

function inFull(cell: string, finish: string): BedTold[] | null {
  const [first = '', ...parts] = cell.split('|').map(part => part.trim())
  if (!isShapeName(first) || parts.length === 0) return null
  const named = new Map(parts.map(part => [part.split(':', 1)[0]!.trim(), part.replace(/^[^:]*:\s*/, '')]))
  const sizes = Object.fromEntries(shapeOf(first).sizes.map(({ name }) => [name, named.get(name) ?? '']))
  const besides = Object.fromEntries(
    BESIDES.flatMap(name => (named.has(name) ? [[name, named.get(name)!]] : [])),
  )
  const extras = named.get('extras')?.split(/\s+/).filter(Boolean)
  const bed = { shape: first, sizes, count: '1', measuredBy: 'eye', planted: 'half', lying: 'unsure' }
  return [{ ...bed, finish, depth: '', ...besides, ...(extras && { extras }) }]
}

function withBesides(bed: BedTold, cells: BedCells): BedTold {
  return {
    ...bed,
    count: cells.count || bed.count,
    depth: cells.depth || bed.depth,
    planted: cells.planted.toLowerCase() || bed.planted,
    lying: cells['old mulch'] || bed.lying,
    measuredBy: cells['measured by'].toLowerCase() || bed.measuredBy,
  }
}

const COLUMN_OF: Record<string, ColumnName> = {
  count: 'count',
  depth: 'depth',
  planted: 'planted',
  lying: 'old mulch',
  measuredBy: 'measured by',
}

function checked(bed: BedTold, table: RateTable, fault: SayFault): BedIn[] {
  const reading = readTold(toldOf([bed]), table)
  if (reading.ok) return [{ told: bed, understood: recordJob(reading.job, table.units) }]
  for (const { field, key, params } of reading.faults)
    fault(COLUMN_OF[field.replace('beds.0.', '')] ?? 'bed', t('en', key, params))
  return []
}

/** A bed as the cells that `readBedCells` reads as the same. */
export function writeBedCells(bed: BedTold, table: RateTable): BedCells {
  const finish = table.finishes.find(({ slug }) => slug === bed.finish)
  const cells: BedCells = {
    bed: '',
    count: String(bed.count),
    material: materialCell(finish, bed.finish, table),
    depth: bed.depth,
    planted: bed.planted,
    'old mulch': bed.lying,
    'measured by': bed.measuredBy,
  }
  const short = spokenOf(bed)
  if (short !== '' && readsAs({ ...cells, bed: short }, bed, table)) return { ...cells, bed: short }
  const besides = BESIDES.flatMap(name => (bed[name] ? [`${name}: ${bed[name]}`] : []))
  const extras = bed.extras?.length ? [`extras: ${bed.extras.join(' ')}`] : []
  const sizes = Object.entries(bed.sizes).flatMap(([name, told]) =>
    told ? [`${name}: ${oneCell(told)}`] : [],
  )
  return { ...cells, bed: [bed.shape, ...sizes, ...besides.map(oneCell), ...extras].join(' | ') }
}

function materialCell(finish: Finish | undefined, slug: string, table: RateTable): string {
  return finish && finishNamed(finish.name.en, table) === finish ? finish.name.en : slug
}

function spokenOf({ shape, sizes }: BedTold): string {
  if (shape === 'circle') return sizes.diameter ? `${sizes.diameter} across` : ''
  if (shape === 'rectangle') return sizes.width ? '' : (sizes.length ?? '')
  return shape === 'area' || shape === 'volume' ? (sizes[shape] ?? '') : ''
}

function readsAs(cells: BedCells, bed: BedTold, table: RateTable): boolean {
  let isWrong = false
  const read = readBedCells(cells, table, () => {
    isWrong = true
  })
  const { toldBed: _, ...wanted } = bed
  return (
    !isWrong && read.length === 1 && isDeepStrictEqual(read[0]!.told, { ...wanted, count: String(bed.count) })
  )
}

function oneCell(told: string): string {
  return told.replace(/[|\s]+/g, ' ').trim()
}
