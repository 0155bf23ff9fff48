import type { RateTable } from '../../estimate/table/rate-table.ts'
import { type CsvFile, cellsOf } from './csv-file.ts'
import type { Field } from './rows.ts'

/** A CSV file with a row for each entry of one of the table's lists. */
export function listFile<Key extends 'finishes' | 'extras' | 'carriers' | 'cautions'>(csvFile: {
  file: string
  about: string
  list: Key
  fields: Field[]
  /** Lists of each entry that other files fill. */
  filledLater?: string[]
  keyOf: (entry: RateTable[Key][number]) => string
  wordsOf: (entry: RateTable[Key][number]) => string
}): CsvFile {
  const { file, about, list, fields, filledLater = [], keyOf, wordsOf } = csvFile
  return {
    file,
    about,
    columns: fields,
    mostRows: 200,
    ordered: true,
    linesOf: table =>
      table[list].map(entry => ({
        key: keyOf(entry),
        words: wordsOf(entry),
        cells: cellsOf(fields, entry),
      })),
    read: (rows, parts) => {
      parts.put(list, [])
      rows.forEach((row, index) => {
        parts.putFields(`${list}.${index}`, fields, row)
        for (const name of filledLater) parts.put(`${list}.${index}.${name}`, [])
      })
    },
  }
}
