import type { z } from 'zod'
import { ownRows, partAt, valueAt } from '../../estimate/table/rows.ts'
import { sameCell, text, word } from './cells.ts'
import { type CsvFile, cellsOf } from './csv-file.ts'
import { fieldOf } from './fields-of.ts'
import type { Field, RowRead } from './rows.ts'
import { placeOf, type TableParts } from './table-parts.ts'

type Zone = { postcodes: string[] }

/** A CSV file with a row for each postcode; rows of one number in its first column are one zone. */
export function zoneFile(
  figures: z.ZodObject,
  zones: { file: string; about: string; path: 'travel' | 'tax.areas'; group: string; words: string },
): CsvFile {
  const { file, about, path, group, words } = zones
  const [postcode, ...zoned] = ownRows(partAt(figures, `${path}.*`)).map(fieldOf) as [Field, ...Field[]]
  return {
    file,
    about,
    columns: [{ name: group, meaning: `rows of one number are one ${group}` }, postcode, ...zoned],
    ordered: true,
    linesOf: table =>
      ((valueAt(table, path) ?? []) as Zone[]).flatMap((zone, index) =>
        zone.postcodes.map(listed => ({
          key: listed,
          words: `${words} ${listed}`,
          cells: {
            [group]: String(index + 1),
            [postcode.name]: text.write(listed),
            ...cellsOf(zoned, zone),
          },
        })),
      ),
    read: (rows, parts) => {
      if (path === 'travel' || parts.body.tax) readZones(rows, parts, path, group, [postcode, ...zoned])
      else if (rows[0]) parts.fault(rows[0], group, 'tax.csv has no tax, so there is none by area')
    },
  }
}

function readZones(
  rows: RowRead[],
  parts: TableParts,
  path: string,
  group: string,
  [postcode, ...fields]: [Field, ...Field[]],
): void {
  parts.put(path, [])
  const zones: { number: string; row: RowRead }[] = []
  for (const row of rows) {
    const number = row.cells[group]!.trim()
    let index = zones.findIndex(zone => zone.number === number)
    if (number === '') {
      parts.fault(row, group, `a number: rows of one number are one ${group}`)
      continue
    }
    if (index < 0) {
      index = zones.push({ number, row }) - 1
      parts.put(`${path}.${index}.postcodes`, [], placeOf(row, postcode.name))
      for (const { name, path: within, cell } of fields)
        parts.put(
          `${path}.${index}.${within}`,
          cell.read(row.cells[name]!, row.decimalComma),
          placeOf(row, name),
        )
    } else refuseOthers(row, zones[index]!.row, fields, `${group} ${number}`, parts)
    const place = `${path}.${index}.postcodes.${parts.list(`${path}.${index}.postcodes`).length}`
    const listed = word.read(row.cells[postcode.name]!, false)
    parts.put(place, listed, placeOf(row, postcode.name))
  }
}

// Of one zone every row says the same.
function refuseOthers(row: RowRead, first: RowRead, fields: Field[], zone: string, parts: TableParts): void {
  const said = ({ name, cell }: Field, { cells, decimalComma }: RowRead) =>
    String(cell.read(cells[name]!, decimalComma) ?? '')
  for (const field of fields) {
    const [here, above] = [said(field, row), said(field, first)]
    if (!sameCell(above, here))
      parts.fault(row, field.name, `“${here}”: ${zone} has ${above || 'none'} above`)
  }
}
