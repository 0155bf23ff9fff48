import { type Kysely, sql, type Transaction } from 'kysely'
import type { LinkTable } from '../db/schema/requests.ts'
import type { Database } from '../db/schema.ts'
import { hashSecret, linkToken, newNonce } from '../lib/tokens.ts'

export type LinkPurpose = LinkTable['purpose']

const PATHS: Record<LinkPurpose, string> = {
  'own page': '/r/',
  booking: '/b/',
  'email address': '/c/',
  reading: '/p/',
}

/** Makes a link of a purpose of which a quote request has none standing, from a nonce that is new unless given. Gives its path. */
export async function makeLink(
  trx: Transaction<Database>,
  secretKey: string,
  purpose: LinkPurpose,
  quoteRequestId: number,
  at: Temporal.Instant,
  endsAt: Temporal.Instant | null = null,
  nonce = newNonce(),
): Promise<string> {
  const token = linkToken(secretKey, purpose, nonce)
  await trx
    .insertInto('link')
    .values({
      purpose,
      quote_request_id: quoteRequestId,
      nonce,
      token_hash: hashSecret(token),
      made_at: at.toString(),
      ends_at: endsAt?.toString() ?? null,
      revoked_at: null,
    })
    .execute()
  return PATHS[purpose] + token
}

/** The path of a link that is made from a nonce. */
export function pathOfLink(secretKey: string, purpose: LinkPurpose, nonce: string): string {
  return PATHS[purpose] + linkToken(secretKey, purpose, nonce)
}

/** Makes a link and ends the standing one of the same purpose, if there is one. Gives its path. */
export async function replaceLink(...link: Parameters<typeof makeLink>): Promise<string> {
  const [trx, , purpose, quoteRequestId, at] = link
  await revokeLink(trx, purpose, quoteRequestId, at)
  return makeLink(...link)
}

/** Ends the standing link of a purpose, if there is one. */
export async function revokeLink(
  trx: Transaction<Database>,
  purpose: LinkPurpose,
  quoteRequestId: number,
  at: Temporal.Instant,
): Promise<void> {
  await trx
    .updateTable('link')
    .set({ revoked_at: at.toString() })
    .where('quote_request_id', '=', quoteRequestId)
    .where('purpose', '=', purpose)
    .where('revoked_at', 'is', null)
    .execute()
}

/** Lets the standing link of a purpose open for so much longer from now on; nothing where it never ends, or there is none. */
export async function renewLink(
  trx: Transaction<Database>,
  purpose: LinkPurpose,
  quoteRequestId: number,
  until: Temporal.Instant,
): Promise<void> {
  await trx
    .updateTable('link')
    .set(eb => ({ ends_at: eb.fn<string>('greatest', ['ends_at', eb.val(until.toString())]) }))
    .where('quote_request_id', '=', quoteRequestId)
    .where('purpose', '=', purpose)
    .where('revoked_at', 'is', null)
    .where('ends_at', 'is not', null)
    .execute()
}

/** The id of the quote request that a token opens; unknown, ended and revoked tokens are all alike undefined. */
export async function findByToken(
  db: Kysely<Database>,
  purpose: LinkPurpose,
  token: string,
  at: Temporal.Instant,
): Promise<number | undefined> {
  const row = await db
    .selectFrom('link')
    .select('quote_request_id')
    .where('token_hash', '=', hashSecret(token))
    .where('purpose', '=', purpose)
    .where('revoked_at', 'is', null)
    .where(eb => eb.or([eb('ends_at', 'is', null), eb('ends_at', '>', at.toString())]))
    .executeTakeFirst()
  return row?.quote_request_id
}

/** The path of the standing link of a purpose, made again from the key; undefined when there is none. */
export async function findLinkPath(
  db: Kysely<Database>,
  secretKey: string,
  purpose: LinkPurpose,
  quoteRequestId: number,
): Promise<string | undefined> {
  const row = await db
    .selectFrom('link')
    .select('nonce')
    .where('quote_request_id', '=', quoteRequestId)
    .where('purpose', '=', purpose)
    .where('revoked_at', 'is', null)
    .executeTakeFirst()
  return row && pathOfLink(secretKey, purpose, row.nonce)
}

/** The standing link of a purpose that hasn't ended either, with its path; undefined where there is none. */
export async function findStandingLink(
  db: Kysely<Database>,
  secretKey: string,
  purpose: LinkPurpose,
  quoteRequestId: number,
  at: Temporal.Instant,
) {
  const row = await db
    .selectFrom('link')
    .select(['id', 'nonce', 'ends_at'])
    .where('quote_request_id', '=', quoteRequestId)
    .where('purpose', '=', purpose)
    .where('revoked_at', 'is', null)
    .where(eb => eb.or([eb('ends_at', 'is', null), eb('ends_at', '>', at.toString())]))
    .executeTakeFirst()
  return row && { ...row, path: pathOfLink(secretKey, purpose, row.nonce) }
}

/** Makes every standing link anew from another key, out of the nonce that it has; gives how many there are. */
export async function remakeLinks(trx: Transaction<Database>, secretKey: string): Promise<number> {
  const links = await trx
    .selectFrom('link')
    .select(['id', 'purpose', 'nonce'])
    .where('revoked_at', 'is', null)
    .forUpdate()
    .execute()
  const ids = links.map(({ id }) => id)
  const hashes = links.map(({ purpose, nonce }) => hashSecret(linkToken(secretKey, purpose, nonce)))
  await sql`
    update link set token_hash = made.hash from unnest(${ids}::bigint[], ${hashes}::text[]) as made(id, hash)
    where link.id = made.id`.execute(trx)
  return links.length
}

/** The link that a token was, where it was revoked or is past its end; undefined where it stands or never was. */
export async function findEndedLink(
  db: Kysely<Database>,
  purpose: LinkPurpose,
  token: string,
  at: Temporal.Instant,
) {
  return db
    .selectFrom('link')
    .select(['quote_request_id', 'revoked_at'])
    .where('token_hash', '=', hashSecret(token))
    .where('purpose', '=', purpose)
    .where(eb => eb.or([eb('revoked_at', 'is not', null), eb('ends_at', '<=', at.toString())]))
    .executeTakeFirst()
}
