import type { z } from 'zod'
import type { ExtraPack, Pack } from '../../estimate/table/pack.ts'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { kindsOf, ownRows, partAt, valueAt } from '../../estimate/table/rows.ts'
import { word } from './cells.ts'
import { type CsvFile, cellsOf } from './csv-file.ts'
import { fieldOf, sharedFields } from './fields-of.ts'
import { slugsOf } from './rate-files.ts'
import type { Column, Field, RowRead } from './rows.ts'
import { placeOf, type TableParts } from './table-parts.ts'

type AnyPack = Pack | ExtraPack

const LISTS: Record<string, 'finishes' | 'extras'> = { finish: 'finishes', extra: 'extras' }
const PRICES_FILE = 'price-breaks.csv'

const owner: Column[] = [
  { name: 'for', meaning: 'finish or extra' },
  { name: 'of', meaning: 'its slug in finishes.csv or extras.csv' },
]

/** The fields of each kind of pack, by what it is for and its kind; a field is known by its column. */
type Kinds = Record<string, Map<string, Field[]>>

function kindsFor(figures: z.ZodObject): Kinds {
  const fieldsOf = (list: string) =>
    new Map(
      [...kindsOf(partAt(figures, `${list}.*.packs.*`))].map(([kind, pack]) => [
        kind,
        ownRows(pack)
          .filter(row => row.kind !== 'prices')
          .map(fieldOf),
      ]),
    )
  return { finish: fieldsOf('finishes'), extra: fieldsOf('extras') }
}

/** Of each finish and extra that has packs: 'finish' or 'extra', and the thing itself. */
function ownersOf(table: RateTable) {
  return [
    ...table.finishes.map(thing => ({ kind: 'finish', ...thing })),
    ...table.extras.map(thing => ({ kind: 'extra', ...thing })),
  ] as { kind: string; slug: string; name: { en: string }; packs: AnyPack[] }[]
}

export function packsFile(figures: z.ZodObject): CsvFile {
  const kinds = kindsFor(figures)
  return {
    file: 'packs.csv',
    about: 'How you buy materials, and what extras need.',
    columns: [...owner, ...packColumns(figures, kinds)],
    ordered: true,
    linesOf: table =>
      ownersOf(table).flatMap(({ kind, slug, name, packs }) =>
        packs.map(pack => ({
          key: `${kind} ${slug} ${pack.slug}`,
          words: `${name.en}, pack ${pack.name.en}`,
          cells: {
            for: kind,
            of: word.write(slug),
            kind: pack.kind,
            ...cellsOf(
              kinds[kind]!.get(pack.kind)!.filter(({ path }) => pack.delivered || !isOfDelivery(path)),
              pack,
            ),
          },
        })),
      ),
    read: (rows, parts) => {
      for (const row of rows) readPack(row, parts, kinds)
    },
  }
}

/** Slug and names, the kind, the sizes that some kinds have, then what all of them have. */
function packColumns(figures: z.ZodObject, kinds: Kinds): Column[] {
  const packs = Object.values(LISTS).flatMap(list => [
    ...kindsOf(partAt(figures, `${list}.*.packs.*`)).values(),
  ])
  const rows = packs.flatMap(ownRows).filter(({ kind }) => kind !== 'prices')
  const all = sharedFields(rows)
  const isOfEach = ({ name }: Column) => rows.filter(row => row.name === name).length === packs.length
  const isName = ({ name }: Column) =>
    rows.some(row => row.name === name && ['slug', 'text'].includes(row.kind))
  const words = (of: string) =>
    `of ${of === 'extra' ? 'an' : 'a'} ${of}: ${[...kinds[of]!.keys()].join(', ')}`
  return [
    ...all.filter(isName),
    { name: 'kind', meaning: Object.keys(kinds).map(words).join('; ') },
    ...all.filter(column => !isOfEach(column)),
    ...all.filter(column => isOfEach(column) && !isName(column)),
  ]
}

function isOfDelivery(path: string): boolean {
  return path.startsWith('delivered.')
}

function readPack(row: RowRead, parts: TableParts, kinds: Kinds): void {
  const thing = thingOf(row, parts)
  if (!thing) return
  const kind = row.cells.kind!.trim()
  const known = kinds[row.cells.for!.trim()]!
  const fields = known.get(kind)
  if (!fields) {
    parts.fault(row, 'kind', `“${kind}”: one of ${[...known.keys()].join(', ')}`)
    return
  }
  const others = Object.values(kinds).flatMap(each => [...each.values()].flat())
  const strange = new Set(
    others.map(({ name }) => name).filter(name => !fields.some(one => one.name === name)),
  )
  for (const name of strange) if (row.cells[name]!.trim() !== '') parts.fault(row, name, `not for a ${kind}`)
  putPack(thing, kind, fields, row, parts)
}

function putPack(thing: string, kind: string, fields: Field[], row: RowRead, parts: TableParts): void {
  const path = `${thing}.packs.${parts.list(`${thing}.packs`).length}`
  const [fee, free] = fields.filter(one => isOfDelivery(one.path)) as [Field, Field]
  const isDelivered = row.cells[fee.name]!.trim() !== ''
  parts.putFields(
    path,
    fields.filter(one => !isOfDelivery(one.path)),
    row,
  )
  parts.put(`${path}.kind`, kind, placeOf(row, 'kind'))
  parts.put(`${path}.prices`, [], placeOf(row, 'slug'))
  parts.put(`${path}.delivered`, isDelivered ? {} : null, placeOf(row, fee.name))
  if (isDelivered) parts.putFields(path, [fee, free], row)
  else if (row.cells[free.name]!.trim() !== '')
    parts.fault(row, free.name, `only with a ${fee.name}, which may be 0`)
}

export function pricesFile(figures: z.ZodObject): CsvFile {
  const [bag] = kindsOf(partAt(figures, 'finishes.*.packs.*')).values()
  const price = ownRows(partAt(bag!, 'prices.*')).map(fieldOf)
  return {
    file: PRICES_FILE,
    about: 'What each pack costs, and where the price drops if you order more.',
    columns: [...owner, { name: 'pack', meaning: 'its slug in packs.csv' }, ...price],
    ordered: true,
    linesOf: table =>
      ownersOf(table).flatMap(({ kind, slug, name, packs }) =>
        packs.flatMap(pack =>
          pack.prices.map(one => ({
            key: `${kind} ${slug} ${pack.slug} ${Number(one.from)}`,
            words: `${name.en}, pack ${pack.name.en}, price from ${one.from}`,
            cells: { for: kind, of: word.write(slug), pack: word.write(pack.slug), ...cellsOf(price, one) },
          })),
        ),
      ),
    read: (rows, parts) => {
      for (const row of rows) readPrice(row, parts, price)
      requirePrices(parts)
    },
  }
}

function readPrice(row: RowRead, parts: TableParts, price: Field[]): void {
  const thing = thingOf(row, parts)
  if (!thing) return
  const slug = word.read(row.cells.pack!, false)
  const index = slugsOf(parts, `${thing}.packs`).indexOf(slug)
  const path = `${thing}.packs.${index}.prices`
  if (index < 0) parts.fault(row, 'pack', `“${slug}”: not in packs.csv for this ${row.cells.for!.trim()}`)
  else parts.putFields(`${path}.${parts.list(path).length}`, price, row)
}

function requirePrices(parts: TableParts): void {
  for (const list of Object.values(LISTS))
    parts.list(list).forEach((_, thing) => {
      parts.list(`${list}.${thing}.packs`).forEach((pack, index) => {
        const { file, row, column, text } = parts.placeOf(`${list}.${thing}.packs.${index}.slug`)!
        if ((valueAt(pack, 'prices') as unknown[]).length === 0)
          parts.faults.push({ file, row, column, message: `“${text}”: has no price in ${PRICES_FILE}` })
      })
    })
}

/** The path of the finish or extra that a row is of, 'finishes.2'; undefined, and a fault, where there is none. */
function thingOf(row: RowRead, parts: TableParts): string | undefined {
  const kind = row.cells.for!.trim()
  const list = Object.hasOwn(LISTS, kind) ? LISTS[kind]! : undefined
  if (!list) {
    parts.fault(row, 'for', `“${kind}”: finish or extra`)
    return undefined
  }
  const slug = word.read(row.cells.of!, false)
  const index = slugsOf(parts, list).indexOf(slug)
  if (index >= 0) return `${list}.${index}`
  parts.fault(row, 'of', `“${slug}”: not in ${list}.csv`)
  return undefined
}
