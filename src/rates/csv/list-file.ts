import type { z } from 'zod'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { listsIn, ownRows, partAt } from '../../estimate/table/rows.ts'
import { type CsvFile, cellsOf } from './csv-file.ts'
import { fieldOf } from './fields-of.ts'

type List = 'finishes' | 'extras' | 'carriers' | 'people' | 'cautions'

/** What tells an entry from the others, and what people know it by. */
const KNOWN: { [Key in List]: (entry: RateTable[Key][number]) => [key: string, words: string] } = {
  finishes: ({ slug, name }) => [slug, name.en],
  extras: ({ slug, name }) => [slug, name.en],
  carriers: ({ name }) => [name.en, `carrier ${name.en}`],
  people: ({ name }) => [name, name],
  cautions: ({ code }) => [code, `caution ${code}`],
}

/** A CSV file with a row for each entry of one of the table's lists; what is a list in an entry stands in other files. */
export function listFile<Key extends List>(figures: z.ZodObject, list: Key, about: string): CsvFile {
  const entry = partAt(figures, `${list}.*`)
  const fields = ownRows(entry).map(fieldOf)
  const lists = listsIn(entry)
  return {
    file: `${list}.csv`,
    about,
    columns: fields,
    mostRows: 200,
    ordered: true,
    linesOf: table =>
      (table[list] as RateTable[Key]).map((entry: RateTable[Key][number]) => {
        const [key, words] = KNOWN[list](entry)
        return { key, words, cells: cellsOf(fields, entry) }
      }),
    read: (rows, parts) => {
      parts.put(list, [])
      rows.forEach((row, index) => {
        parts.putFields(`${list}.${index}`, fields, row)
        for (const name of lists) parts.put(`${list}.${index}.${name}`, [])
      })
    },
  }
}
