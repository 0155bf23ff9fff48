import type { RateTable } from '../../estimate/table/rate-table.ts'
import { figure, sameCell, text, word } from './cells.ts'
import type { CsvFile } from './csv-file.ts'
import type { Field, Row } from './rows.ts'
import { placeOf, type TableParts } from './table-parts.ts'

export const travelFile = zoneFile({
  file: 'travel.csv',
  about: 'Where you go, and what travel is charged there. Empty: anywhere, without a charge.',
  path: 'travel',
  group: 'zone',
  figureField: {
    name: 'charge',
    path: 'charge',
    cell: figure,
    unit: '{money}',
    meaning: 'the same for a whole zone',
  },
  zonesOf: table => table.travel.map(({ postcodes, charge }) => ({ postcodes, figure: charge })),
  words: 'travel to',
})

export const taxAreasFile = zoneFile({
  file: 'tax-areas.csv',
  about: 'Where the tax has another rate than that of tax.csv.',
  path: 'tax.areas',
  group: 'area',
  figureField: {
    name: 'rate',
    path: 'rate',
    cell: figure,
    unit: 'share',
    meaning: 'the same for a whole area',
  },
  zonesOf: table => (table.tax?.areas ?? []).map(({ postcodes, rate }) => ({ postcodes, figure: rate })),
  words: 'tax in',
})

/** A CSV file with a row for each postcode; rows of one number in its first column are one zone. */
function zoneFile(csvFile: {
  file: string
  about: string
  path: 'travel' | 'tax.areas'
  group: string
  figureField: Field
  zonesOf: (table: RateTable) => { postcodes: string[]; figure: string }[]
  words: string
}): CsvFile {
  const { file, about, path, group, figureField, zonesOf, words } = csvFile
  return {
    file,
    about,
    columns: [
      { name: group, meaning: `rows of one number are one ${group}` },
      { name: 'postcode', meaning: 'a ZIP or postcode; 787* stands for all that begin with 787' },
      figureField,
    ],
    ordered: true,
    linesOf: table =>
      zonesOf(table).flatMap((zone, index) =>
        zone.postcodes.map(postcode => ({
          key: postcode,
          words: `${words} ${postcode}`,
          cells: {
            [group]: String(index + 1),
            postcode: text.write(postcode),
            [figureField.name]: figureField.cell.write(zone.figure),
          },
        })),
      ),
    read: (rows, parts) => {
      if (path === 'travel' || parts.body.tax) readZones(rows, parts, path, group, figureField)
      else if (rows[0]) parts.fault(rows[0], group, 'tax.csv has no tax, so there is none by area')
    },
  }
}

function readZones(rows: Row[], parts: TableParts, path: string, group: string, field: Field): void {
  parts.put(path, [])
  const zones: { number: string; figure: string }[] = []
  for (const row of rows) {
    const number = row.cells[group]!.trim()
    const read = field.cell.read(row.cells[field.name]!, row.decimalComma) as string
    let index = zones.findIndex(zone => zone.number === number)
    if (number === '') {
      parts.fault(row, group, `a number: rows of one number are one ${group}`)
      continue
    }
    if (index < 0) {
      index = zones.push({ number, figure: read }) - 1
      parts.put(`${path}.${index}.postcodes`, [], placeOf(row, 'postcode'))
      parts.put(`${path}.${index}.${field.path}`, read, placeOf(row, field.name))
    } else if (!sameCell(zones[index]!.figure, read))
      parts.fault(row, field.name, `“${read}”: ${group} ${number} has ${zones[index]!.figure} above`)
    const place = `${path}.${index}.postcodes.${parts.list(`${path}.${index}.postcodes`).length}`
    const postcode = word.read(row.cells.postcode!, false) as string
    parts.put(place, postcode, placeOf(row, 'postcode'))
  }
}
