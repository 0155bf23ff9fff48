import { Readable } from 'node:stream'
import { Zip, ZipDeflate, ZipPassThrough } from 'fflate'
import { type Kysely, sql } from 'kysely'
import { makeBillPaper } from '../billing/paper.ts'
import { findBills } from '../billing/queries.ts'
import { openPrice } from '../bookings/page.ts'
import { makePricePaper } from '../bookings/price-paper-routes.ts'
import { requireBusiness } from '../business/queries.ts'
import type { Database } from '../db/schema.ts'
import type { Deps } from '../deps.ts'
import type { Language } from '../language/language.ts'
import { newestRevision } from '../quotes/queries.ts'
import { findHeldOf } from './held.ts'
import { ofPeople, type People } from './people.ts'
import { OF_PERSON, type TableName } from './tables.ts'

/** No more than so many rows of a table, photos, and papers, the newest requests first. */
const MOST_ROWS = 5000
const MOST_FILES = 500

interface Entry {
  name: string
  bytes: Uint8Array
}

interface RequestRow {
  id: number
  number: string
  language: Language
  erased_at: string | null
}

/** All that is known of these people as a zip: one file after another, each made when the one before has gone. */
export function zipOfPeople(deps: Deps, people: People): Readable {
  return Readable.from(zipped(filesOf(deps, people), deps.now()), { objectMode: false })
}

async function* zipped(entries: AsyncGenerator<Entry>, at: Temporal.Instant): AsyncGenerator<Uint8Array> {
  let ready: Uint8Array[] = []
  const zip = new Zip((error, chunk) => {
    if (error) throw error
    ready.push(chunk)
  })
  for await (const { name, bytes } of entries) {
    const isPacked = /\.(jpg|pdf)$/.test(name)
    const file = isPacked ? new ZipPassThrough(name) : new ZipDeflate(name)
    file.mtime = at.epochMilliseconds
    zip.add(file)
    file.push(bytes, true)
    yield* ready
    ready = []
  }
  zip.end()
  yield* ready
}

async function* filesOf(deps: Deps, people: People): AsyncGenerator<Entry> {
  const { rows } = await sql<RequestRow>`
    select id, number, language, erased_at from quote_request where id = any(${people.requests}::bigint[])
    order by id desc limit ${MOST_FILES}`.execute(deps.db)
  yield { name: 'read-me.txt', bytes: Buffer.from(guide(people.requests.length > rows.length)) }
  yield {
    name: 'person.json',
    bytes: Buffer.from(`${JSON.stringify(await rowsOf(deps.db, people), null, 1)}\n`),
  }
  for (const request of rows) {
    for (const [table, name] of PHOTOS) yield* photosOf(deps.db, table, 'quote_request_id', request, name)
    yield* papersOf(deps, request)
  }
  for (const held of await findHeldOf(deps.db, people))
    yield* photosOf(deps.db, 'request_photo', 'maybe_junk_id', held, 'held')
  yield* certificatesOf(deps.db, people)
}

function guide(isCut: boolean): string {
  const tables = Object.entries(OF_PERSON).map(([table, { about }]) => `  ${table}: ${about}`)
  return [
    'person.json has all that is kept of one person, as JSON: a list of rows under each of these names. Moments are in UTC,',
    'amounts are text. Pictures, keys, other people’s names, and the business’s own figures are left out.',
    '',
    ...tables,
    '  maybe_junk: What was held as maybe junk with the same phone or email.',
    '',
    'photos, prices, bills, certificates: what the names say, by the number of the request, or of the bill.',
    ...(isCut
      ? ['', `There are more than ${MOST_FILES} requests: photos and papers are of the newest.`]
      : []),
    '',
  ].join('\n')
}

/** The rows of every table that are of these people, without what an export leaves out; as of one moment. */
async function rowsOf(db: Kysely<Database>, people: People): Promise<Record<string, unknown[]>> {
  return db
    .transaction()
    .setIsolationLevel('repeatable read')
    .execute(async trx => {
      const { rows: columns } = await sql<{ table: string; column: string }>`
        select table_name as table, column_name as column from information_schema.columns
        where table_schema = current_schema() order by table_name, ordinal_position`.execute(trx)
      const all: Record<string, unknown[]> = {}
      for (const [table, { via, without = [] }] of Object.entries(OF_PERSON)) {
        const told = columns.filter(of => of.table === table && !without.includes(of.column))
        const { rows } = await sql<{ row: unknown }>`
          select to_jsonb(one) as row from (select ${sql.join(told.map(({ column }) => sql.ref(column)))}
            from ${sql.table(table)} where ${ofPeople(table as TableName, via, people)} limit ${MOST_ROWS}) as one`.execute(
          trx,
        )
        all[table] = rows.map(({ row }) => row)
      }
      all.maybe_junk = (await findHeldOf(trx, people)).map(({ id: _id, ...row }) => row)
      return all
    })
}

const PHOTOS = [
  ['request_photo', 'sent'],
  ['job_photo', 'work'],
] as const

async function* photosOf(
  db: Kysely<Database>,
  table: 'request_photo' | 'job_photo',
  column: 'quote_request_id' | 'maybe_junk_id',
  { id, number }: Pick<RequestRow, 'id' | 'number'>,
  name: string,
): AsyncGenerator<Entry> {
  const { rows } = await sql<{ id: number }>`
    select id from ${sql.table(table)} where ${sql.ref(column)} = ${id} order by id limit ${MOST_FILES}`.execute(
    db,
  )
  for (const [nth, photo] of rows.entries()) {
    const row = await db.selectFrom(table).select('picture').where('id', '=', photo.id).executeTakeFirst()
    if (row) yield { name: `photos/${number}-${name}-${nth + 1}.jpg`, bytes: row.picture }
  }
}

async function* papersOf(deps: Deps, request: RequestRow): AsyncGenerator<Entry> {
  const { id, number } = request
  if (request.erased_at === null && (await newestRevision(deps.db, id)) > 0) {
    const bytes = await pricePaperOf(deps, request)
    if (bytes) yield { name: `prices/${number}.pdf`, bytes }
  }
  for (const bill of await findBills(deps.db, id)) {
    const business = await requireBusiness(deps.db)
    yield {
      name: `bills/${bill.number}.pdf`,
      bytes: await makeBillPaper(deps, business, bill, bill.language),
    }
  }
}

// Of an erased request there is no price to show any more, nor of one that is erased while its paper is made; its bills stay.
async function pricePaperOf(deps: Deps, { id, number, language }: RequestRow): Promise<Uint8Array | null> {
  const isErased = async () => {
    const row = deps.db.selectFrom('quote_request').select('erased_at').where('id', '=', id)
    return (await row.executeTakeFirst())?.erased_at !== null
  }
  try {
    const paper = await makePricePaper(
      deps,
      await openPrice(deps, id, `/queue/${number}`, true),
      {},
      language,
    )
    return (await isErased()) ? null : paper
  } catch (fault) {
    if (await isErased()) return null
    throw fault
  }
}

async function* certificatesOf(db: Kysely<Database>, people: People): AsyncGenerator<Entry> {
  const { rows } = await sql<{ file_id: number; name: string }>`
    select certificate_file_id as file_id, 'firm-' || customer_id as name from firm
      where certificate_file_id is not null and customer_id = any(${people.customers}::bigint[])
    union all select file_id, quote_request.number from job_certificate
      join quote_request on quote_request.id = quote_request_id
      where file_id is not null and quote_request_id = any(${people.requests}::bigint[])
    order by name limit ${MOST_FILES}`.execute(db)
  for (const { file_id, name } of rows) {
    const file = await db
      .selectFrom('kept_file')
      .select(['kind', 'bytes'])
      .where('id', '=', file_id)
      .executeTakeFirst()
    const ending = file?.kind === 'image/jpeg' ? 'jpg' : 'pdf'
    if (file) yield { name: `certificates/${name}.${ending}`, bytes: file.bytes }
  }
}
