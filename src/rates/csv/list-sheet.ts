import type { RateTable } from '../../estimate/table/rate-table.ts'
import { cellsOf, type Field, type Sheet } from './sheet.ts'

/** A sheet with a row for each entry of one of the table's lists. */
export function listSheet<Key extends 'finishes' | 'extras' | 'carriers' | 'cautions'>(sheet: {
  file: string
  about: string
  list: Key
  fields: Field[]
  /** Lists of each entry that other sheets fill. */
  filledLater?: string[]
  keyOf: (entry: RateTable[Key][number]) => string
  wordsOf: (entry: RateTable[Key][number]) => string
}): Sheet {
  const { file, about, list, fields, filledLater = [], keyOf, wordsOf } = sheet
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
    read: (rows, draft) => {
      draft.put(list, [])
      rows.forEach((row, index) => {
        draft.putFields(`${list}.${index}`, fields, row)
        for (const name of filledLater) draft.put(`${list}.${index}.${name}`, [])
      })
    },
  }
}
