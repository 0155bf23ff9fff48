import { type Kysely, sql, type Transaction } from 'kysely'
import type { Database } from '../../db/schema.ts'
import { hashSecret, linkToken } from '../../lib/tokens.ts'

/** The same submission was taken in meanwhile, one way or the other: findSent knows it. */
export class SentMeanwhile extends Error {}

/** How a submission is known again: by its content, or by the number it was given. */
export interface Submitted {
  key: string
  contentHash: string
  number?: string | undefined
}

/** The one that a submission made, whether or not somebody said that it's junk. */
export async function findMaybeJunkSent(db: Kysely<Database>, { key, contentHash, number = '' }: Submitted) {
  return db
    .selectFrom('maybe_junk')
    .select(['number', 'nonce'])
    .where('submission_key', '=', key)
    .where(eb => eb.or([eb('content_hash', '=', contentHash), eb('number', '=', number)]))
    .orderBy(eb => eb('content_hash', '=', contentHash), 'desc')
    .executeTakeFirst()
}

/** The one whose own page a token opens. */
export async function findMaybeJunkByToken(db: Kysely<Database>, token: string) {
  return db
    .selectFrom('maybe_junk')
    .selectAll()
    .where('token_hash', '=', hashSecret(token))
    .executeTakeFirst()
}

/** The one that a link asks about which was mailed or texted to whoever sent it; none that somebody said is junk. */
export async function findAsked(db: Kysely<Database>, token: string) {
  return db
    .selectFrom('maybe_junk')
    .select(['number', 'nonce'])
    .where('asked_hash', '=', hashSecret(token))
    .where('junk_at', 'is', null)
    .executeTakeFirst()
}

export type MaybeJunkRow = NonNullable<Awaited<ReturnType<typeof findMaybeJunkByToken>>>

/** How many are to be looked at, and how many somebody said are junk. */
export async function countMaybeJunk(db: Kysely<Database>): Promise<{ held: number; junk: number }> {
  return db
    .selectFrom('maybe_junk')
    .select(sql<number>`count(*) filter (where junk_at is null)`.as('held'))
    .select(sql<number>`count(*) filter (where junk_at is not null)`.as('junk'))
    .executeTakeFirstOrThrow()
}

/** Some of them, what may well be real first, then the newest, from one on; with how many photos each has. */
export async function listMaybeJunk(
  db: Kysely<Database>,
  asked: { junk: boolean; after: { points: number; id: number } | null; most: number },
) {
  return db
    .selectFrom('maybe_junk')
    .select(['id', 'number', 'sending', 'ballpark', 'points', 'reasons', 'arrived_at'])
    .select(eb =>
      eb
        .selectFrom('request_photo')
        .select(count => count.fn.countAll<number>().as('count'))
        .whereRef('maybe_junk_id', '=', 'maybe_junk.id')
        .$asScalar()
        .as('photos'),
    )
    .where('junk_at', asked.junk ? 'is not' : 'is', null)
    .$if(asked.after !== null, query =>
      query.where(
        sql<boolean>`(points, -id) > (${asked.after!.points}::integer, ${-asked.after!.id}::bigint)`,
      ),
    )
    .orderBy('points')
    .orderBy('id', 'desc')
    .limit(asked.most)
    .execute()
}

/** Makes the links to their pages anew from another key. */
export async function remakeMaybeJunkLinks(trx: Transaction<Database>, secretKey: string): Promise<void> {
  const rows = await trx.selectFrom('maybe_junk').select(['id', 'nonce']).execute()
  const ids = rows.map(({ id }) => id)
  const hashes = rows.map(({ nonce }) => hashSecret(linkToken(secretKey, 'own page', nonce)))
  const asked = rows.map(({ nonce }) => hashSecret(linkToken(secretKey, 'email address', nonce)))
  await sql`
    update maybe_junk set token_hash = made.hash,
      asked_hash = case when asked_hash is null then null else made.asked end
    from unnest(${ids}::bigint[], ${hashes}::text[], ${asked}::text[]) as made(id, hash, asked)
    where maybe_junk.id = made.id`.execute(trx)
}
