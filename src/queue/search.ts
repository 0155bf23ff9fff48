import { type Expression, type Kysely, type SqlBool, sql } from 'kysely'
import type { Database } from '../db/schema.ts'
import type { Page } from './list.ts'
import { plainText } from './plain-text.ts'
import { findRows } from './rows.ts'
import type { Narrowed } from './steps.ts'

const SHOWN_ON_A_PAGE = 50
/** As many digits of a number as are the same with and without the code of its country or area. */
const OWN_DIGITS = 7

/**
 * Requests found by name, phone, place, number or note, ended ones and junk too, newest first; of phone numbers only
 * the digits count, of words neither case nor accents do. `before` is the id of the last row of the page before.
 */
export async function searchQueue(
  db: Kysely<Database>,
  typed: string,
  { givenTo }: Narrowed,
  before: number | null,
): Promise<Page> {
  const found = await db
    .selectFrom('request_text')
    .innerJoin('quote_request', 'quote_request.id', 'request_text.quote_request_id')
    .innerJoin('customer', 'customer.id', 'quote_request.customer_id')
    .select('quote_request.id')
    .where(matches(typed))
    .$if(before !== null, query => query.where('request_text.quote_request_id', '<', before!))
    .$if(givenTo === 'nobody', query => query.where('given_to', 'is', null))
    .$if(typeof givenTo === 'number', query => query.where('given_to', '=', givenTo as number))
    .orderBy('request_text.quote_request_id', 'desc')
    .limit(SHOWN_ON_A_PAGE + 1)
    .execute()
  const ids = found.map(({ id }) => id)
  return { rows: await findRows(db, ids.slice(0, SHOWN_ON_A_PAGE)), more: ids.length > SHOWN_ON_A_PAGE }
}

function matches(typed: string): Expression<SqlBool> {
  const words = plainText(typed).split(/\s+/).filter(Boolean)
  if (words.length === 0) return sql<SqlBool>`false`
  const everyWord = sql.join(words.map(wordMatches), sql` and `)
  const digits = phoneDigits(typed)
  return digits ? sql<SqlBool>`((${everyWord}) or ${phoneMatches(digits)})` : sql<SqlBool>`(${everyWord})`
}

// The index knows three signs in a row, the blank before a word among them: a shorter one has to begin a word.
function wordMatches(word: string) {
  const escaped = word.replace(/[\\%_]/g, '\\$&')
  const pattern = /^[\p{L}\p{N}]{1,2}$/u.test(word) ? `% ${escaped}%` : `%${escaped}%`
  return sql`request_text.plain like ${pattern}`
}

/** The digits of what looks like a phone number, else null. */
function phoneDigits(typed: string): string | null {
  const digits = /^[\d\s()+./-]+$/.test(typed) ? typed.replace(/\D/g, '') : ''
  return digits.length >= 4 ? digits : null
}

// Either may have been written with a country's code, or zeros before it, that the other lacks.
function phoneMatches(digits: string) {
  const stored = sql`regexp_replace(customer.phone, '\\D', '', 'g')`
  const bare = sql`ltrim(${stored}, '0')`
  const typed = digits.replace(/^0+/, '')
  const own = `%${digits.slice(-OWN_DIGITS)}%`
  return sql`(request_text.plain like ${own} and (strpos(${stored}, ${digits}) > 0
    or (${typed.length} >= 7 and strpos(${stored}, ${typed}) > 0)
    or (length(${bare}) >= 7 and strpos(${typed}, ${bare}) > 0)))`
}
