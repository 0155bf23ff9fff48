import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { BedTold } from '../estimate/job/bed.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { guarded } from '../rates/csv/cells.ts'
import { writeCsv } from '../rates/csv/csv.ts'
import { type BedCells, writeBedCells } from './bed-cell.ts'
import { type ColumnName, WRITTEN } from './columns.ts'

interface OutRow {
  customer: number
  name: string
  phone: string
  email: string
  place: number | null
  street: string | null
  postcode: string | null
  gate: string | null
  dog: string | null
  bed: BedTold | null
}

const NO_BED: BedCells = {
  bed: '',
  count: '',
  material: '',
  depth: '',
  planted: '',
  'old mulch': '',
  'measured by': '',
}

/**
 * All customers with their places and the beds that are there still, each as it is known last, as CSV that can be taken in
 * again: a row a bed, and one for whoever has none. Those of whom there is nothing but junk are left out.
 */
export async function customersCsv(db: Kysely<Database>, table: RateTable): Promise<string> {
  const numbers = { customer: numbering(), place: numbering() }
  const rows = (await findAll(db)).map(row => {
    const cells: Partial<Record<ColumnName, string>> = {
      customer: numbers.customer(String(row.customer)),
      name: row.name || row.phone || row.email || '?',
      phone: row.phone,
      email: row.email,
      property: row.place === null ? '' : numbers.place(`${row.customer} ${row.place}`),
      street: row.street ?? '',
      postcode: row.postcode ?? '',
      gate: row.gate ?? '',
      dog: row.dog ?? '',
      ...(row.bed ? writeBedCells(row.bed, table) : NO_BED),
    }
    return WRITTEN.map(name =>
      name === 'customer' || name === 'property' ? cells[name]! : guarded(cells[name] ?? ''),
    )
  })
  return writeCsv([[...WRITTEN], ...rows])
}

// From 1 on in the order in which they come, as ids are of no meaning elsewhere.
function numbering(): (id: string) => string {
  const numbers = new Map<string, string>()
  return id => {
    if (!numbers.has(id)) numbers.set(id, String(numbers.size + 1))
    return numbers.get(id)!
  }
}

/** By the heads of their groups, each as told last; a place that several share has its beds with the first of them. */
async function findAll(db: Kysely<Database>): Promise<OutRow[]> {
  const told = (table: string, column: string, head: string) => sql`
    coalesce((select ${sql.ref(column)} from ${sql.table(table)} as one
      where one.head_id = ${sql.ref(head)} and one.${sql.ref(column)} <> '' order by one.id desc limit 1), '')`
  const { rows } = await sql<OutRow>`
    with people as (
      select head_id as id from customer
        left join quote_request on quote_request.customer_id = customer.id
      group by head_id having count(quote_request.id) = 0 or bool_or(junk_at is null)),
    sites as (
      select customer.head_id as customer_id, place.head_id as id, min(place.id) as first from place
        join customer on customer.id = place.customer_id join people on people.id = customer.head_id
      group by 1, 2)
    select people.id as customer, ${told('customer', 'name', 'people.id')} as name,
      ${told('customer', 'phone', 'people.id')} as phone, ${told('customer', 'email', 'people.id')} as email,
      sites.id as place, ${told('place', 'street', 'sites.id')} as street,
      ${told('place', 'postcode', 'sites.id')} as postcode, ${told('place', 'gate', 'sites.id')} as gate,
      ${told('place', 'dog', 'sites.id')} as dog, beds.bed
    from people left join sites on sites.customer_id = people.id
      left join lateral (
        select coalesce(measured, told) as bed, bed.id from bed join place on place.id = bed.place_id
        where place.head_id = sites.id and bed.gone_at is null
          and not exists (select 1 from sites as other where other.id = sites.id and other.customer_id < sites.customer_id)
      ) as beds on true
    order by people.id, sites.first, beds.id`.execute(db)
  return rows
}
