import type { RateTable } from '../estimate/table/rate-table.ts'
import { FormFields } from '../http/form-fields.ts'
import { translator } from '../language/catalogue.ts'
import { readEmail, readPhone, readPostcode } from '../requests/contact-form.ts'
import { readBedCells } from './bed-cell.ts'
import { COLUMNS, type ColumnName, type Matched } from './columns.ts'
import { type CustomerIn, Gathered, type RowTold } from './gathered.ts'
import type { Records, RowFault } from './records.ts'

const LONG = 'That’s too long.'
/** After so many rows the others get their turn. */
const ROWS_AT_A_TIME = 10
/** A place has at most as many beds as can be priced together, of a request. */
const MOST_BEDS_OF_ALL = 6000

/** What a file tells of; nothing of it is to be taken in while there is a fault. */
export interface PeopleIn {
  customers: CustomerIn[]
  faults: RowFault[]
}

/** Reads the rows of a file by its columns, for a business in this country that has these rates. */
export async function readPeople(
  { rows, header }: Records,
  matched: Matched,
  country: string,
  table: RateTable,
): Promise<PeopleIn> {
  const faults: RowFault[] = []
  const people = new Gathered()
  if (matched.name === undefined)
    faults.push({ row: 1, column: '', message: 'Say below which column has the name.' })
  else
    for (const [index, { number, cells }] of rows.entries()) {
      if (index % ROWS_AT_A_TIME === ROWS_AT_A_TIME - 1) await new Promise(setImmediate)
      const before = faults.length
      const fault = (column: ColumnName, message: string) =>
        faults.push({ row: number, column: header[matched[column] ?? -1] || labelOf(column), message })
      const told = readRow(number, cellsOf(cells, matched), country, fault)
      const beds = readBedCells(told.cells, table, fault)
      if (faults.length === before) people.add(told, beds, fault)
    }
  if (people.beds > MOST_BEDS_OF_ALL)
    faults.push({
      row: 0,
      column: '',
      message: `That’s more than ${MOST_BEDS_OF_ALL.toLocaleString('en-US')} beds. Split it into smaller files.`,
    })
  return { customers: people.customers, faults }
}

/** What our column is called on the page. */
function labelOf(column: ColumnName): string {
  return COLUMNS.find(({ name }) => name === column)!.label
}

function cellsOf(cells: string[], matched: Matched): Record<ColumnName, string> {
  return Object.fromEntries(COLUMNS.map(({ name }) => [name, cells[matched[name] ?? -1] ?? ''])) as Record<
    ColumnName,
    string
  >
}

function readRow(
  row: number,
  cells: Record<ColumnName, string>,
  country: string,
  fault: (column: ColumnName, message: string) => void,
): RowTold {
  const say = translator('en', country)
  const fields = new FormFields({
    ...cells,
    name: [cells.name, cells['last name']].filter(Boolean).join(' '),
    street: [cells.street, cells.town].filter(Boolean).join(', '),
  })
  const line = (name: string, most: number) => fields.line(name, { most, tooLong: LONG })
  const told = {
    row,
    name: fields.line('name', { most: 120, tooLong: LONG, missing: 'There’s no name in this row.' }),
    phone: readPhone(fields, say),
    email: readEmail(fields, say),
    street: line('street', 200),
    postcode: readPostcode(fields, country, say),
    gate: line('gate', 200),
    dog: line('dog', 200),
    cells,
  }
  for (const name of ['customer', 'property']) line(name, 100)
  for (const [name, message] of Object.entries(fields.errors)) fault(name as ColumnName, message)
  return told
}
