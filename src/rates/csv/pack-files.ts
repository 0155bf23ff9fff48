import type { ExtraPack, Pack } from '../../estimate/table/pack.ts'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { figure, figureOrNone, word, yesOrNo } from './cells.ts'
import { type CsvFile, cellsOf, valueAt } from './csv-file.ts'
import { named } from './finish-files.ts'
import { slugsOf } from './rate-files.ts'
import type { Column, Field, Row } from './rows.ts'
import { placeOf, type TableParts } from './table-parts.ts'

type AnyPack = Pack | ExtraPack

/** The columns of sizes that each kind of pack has. */
const KINDS: Record<string, Record<string, string[]>> = {
  finish: { bag: ['holds'], bale: ['covers', 'deep'], bulk: [], weighed: ['density'] } satisfies Record<
    Pack['kind'],
    string[]
  >,
  extra: {
    roll: ['width', 'length', 'overlap'],
    piece: ['length', 'stakes', 'stake price'],
  } satisfies Record<ExtraPack['kind'], string[]>,
}
const LISTS: Record<string, 'finishes' | 'extras'> = { finish: 'finishes', extra: 'extras' }
const FEE = 'delivery fee'
const FREE = 'free from'

const owner: Column[] = [
  { name: 'for', meaning: 'finish or extra' },
  { name: 'of', meaning: 'its slug in finishes.csv or extras.csv' },
]

const sized: Field[] = [
  { name: 'holds', path: 'holds', cell: figure, unit: '{volume}', meaning: 'of a bag' },
  {
    name: 'covers',
    path: 'covers',
    cell: figure,
    unit: '{area}',
    meaning: 'of a bale, laid as deep as follows',
  },
  { name: 'deep', path: 'deep', cell: figure, unit: '{depth}', meaning: 'of a bale' },
  {
    name: 'density',
    path: 'density',
    cell: figure,
    unit: '{weight} per {bulk}',
    meaning: 'of what is weighed, as sold',
  },
  { name: 'width', path: 'width', cell: figure, unit: '{length}', meaning: 'of a roll' },
  { name: 'length', path: 'length', cell: figure, unit: '{length}', meaning: 'of a roll or a piece' },
  {
    name: 'overlap',
    path: 'overlap',
    cell: figure,
    unit: '{length}',
    meaning: 'of a roll over the one beside it',
  },
  { name: 'stakes', path: 'stakes', cell: figure, meaning: 'how many go with a piece' },
  { name: 'stake price', path: 'stakeEach', cell: figure, unit: '{money}', meaning: 'of one stake' },
]

const order: Field[] = [
  {
    name: 'least',
    path: 'least',
    cell: figure,
    unit: 'packs, {bulk} or {ton}',
    meaning: 'the smallest order',
  },
  {
    name: 'step',
    path: 'step',
    cell: figure,
    unit: 'packs, {bulk} or {ton}',
    meaning: 'orders go up by that',
  },
  { name: 'collected', path: 'collected', cell: yesOrNo, meaning: 'whether it may be fetched: yes or no' },
]

const delivery: Field[] = [
  {
    name: FEE,
    path: 'fee',
    cell: figure,
    unit: '{money}',
    meaning: 'for the whole order; empty: it isn’t brought',
  },
  {
    name: FREE,
    path: 'freeFrom',
    cell: figureOrNone,
    unit: 'packs, {bulk} or {ton}',
    meaning: 'an order from which on it is brought for nothing; empty: never',
  },
]

/** Of each finish and extra that has packs: 'finish' or 'extra', and the thing itself. */
function ownersOf(table: RateTable) {
  return [
    ...table.finishes.map(thing => ({ kind: 'finish', ...thing })),
    ...table.extras.map(thing => ({ kind: 'extra', ...thing })),
  ] as { kind: string; slug: string; name: { en: string }; packs: AnyPack[] }[]
}

export const packsFile: CsvFile = {
  file: 'packs.csv',
  about: 'The ways in which finishes and what extras need are bought.',
  columns: [
    ...owner,
    ...named,
    { name: 'kind', meaning: 'of a finish: bag, bale, bulk or weighed; of an extra: roll or piece' },
    ...sized,
    ...order,
    ...delivery,
  ],
  ordered: true,
  linesOf: table =>
    ownersOf(table).flatMap(({ kind, slug, name, packs }) =>
      packs.map(pack => ({
        key: `${kind} ${slug} ${pack.slug}`,
        words: `${name.en}, pack ${pack.name.en}`,
        cells: {
          for: kind,
          of: word.write(slug),
          ...cellsOf([...named, ...order], pack),
          kind: pack.kind,
          ...cellsOf(
            sized.filter(({ path }) => path in pack),
            pack,
          ),
          ...(pack.delivered ? cellsOf(delivery, pack.delivered) : {}),
        },
      })),
    ),
  read: (rows, parts) => {
    for (const row of rows) readPack(row, parts)
  },
}

function readPack(row: Row, parts: TableParts): void {
  const thing = thingOf(row, parts)
  const kind = row.cells.kind!.trim()
  const kinds = thing ? KINDS[row.cells.for!.trim()]! : {}
  if (thing && Object.hasOwn(kinds, kind)) putPack(thing, kind, kinds[kind]!, row, parts)
  else if (thing) parts.fault(row, 'kind', `“${kind}”: one of ${Object.keys(kinds).join(', ')}`)
}

function putPack(thing: string, kind: string, sizes: string[], row: Row, parts: TableParts): void {
  const path = `${thing}.packs.${parts.list(`${thing}.packs`).length}`
  const isOfKind = ({ name }: Field) => sizes.includes(name)
  parts.putFields(path, [...named, ...order, ...sized.filter(isOfKind)], row)
  parts.put(`${path}.kind`, kind, placeOf(row, 'kind'))
  parts.put(`${path}.prices`, [], placeOf(row, 'slug'))
  parts.put(`${path}.delivered`, null, placeOf(row, FEE))
  for (const field of sized)
    if (!isOfKind(field) && row.cells[field.name]!.trim() !== '')
      parts.fault(row, field.name, `not for a ${kind}`)
  const [fee, free] = delivery.map(({ name }) => row.cells[name]!.trim())
  if (fee !== '') {
    parts.put(`${path}.delivered`, {})
    parts.putFields(`${path}.delivered`, delivery, row)
  } else if (free !== '') parts.fault(row, FREE, `only with a ${FEE}, which may be 0`)
}

const price: Field[] = [
  {
    name: 'from',
    path: 'from',
    cell: figure,
    unit: 'packs, {bulk} or {ton}',
    meaning: 'from so many on; the first is 0',
  },
  { name: 'each', path: 'each', cell: figure, unit: '{money}', meaning: 'what each then costs' },
]

export const pricesFile: CsvFile = {
  file: 'price-breaks.csv',
  about: 'What each pack costs; the more are ordered the less, where it is so.',
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
    for (const row of rows) {
      const thing = thingOf(row, parts)
      if (!thing) continue
      const slug = word.read(row.cells.pack!, false)
      const index = slugsOf(parts, `${thing}.packs`).indexOf(slug)
      if (index < 0) {
        parts.fault(row, 'pack', `“${slug}”: not in packs.csv for this ${row.cells.for!.trim()}`)
        continue
      }
      const path = `${thing}.packs.${index}.prices`
      parts.putFields(`${path}.${parts.list(path).length}`, price, row)
    }
    requirePrices(parts)
  },
}

function requirePrices(parts: TableParts): void {
  for (const list of Object.values(LISTS))
    parts.list(list).forEach((_, thing) => {
      parts.list(`${list}.${thing}.packs`).forEach((pack, index) => {
        const { file, row, column, text } = parts.placeOf(`${list}.${thing}.packs.${index}.slug`)!
        if ((valueAt(pack, 'prices') as unknown[]).length === 0)
          parts.faults.push({ file, row, column, message: `“${text}”: has no price in ${pricesFile.file}` })
      })
    })
}

/** The path of the finish or extra that a row is of, 'finishes.2'; undefined, and a fault, where there is none. */
function thingOf(row: Row, parts: TableParts): string | undefined {
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
