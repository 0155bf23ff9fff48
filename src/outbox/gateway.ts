import type { Kysely } from 'kysely'
import type { Database } from '../db/schema.ts'
import { linkToken } from '../lib/tokens.ts'
import { webhookSecret } from '../lib/webhook.ts'

/** What text messages are handed to: an address, and the secret by which both sides sign. */
export interface Gateway {
  address: string
  secret: string
}

/** The gateway for texts; undefined where they are passed on by hand. Its secret is made from the installation's key. */
export async function findGateway(db: Kysely<Database>, secretKey: string): Promise<Gateway | undefined> {
  const row = await db.selectFrom('text_gateway').select(['address', 'nonce']).executeTakeFirst()
  if (!row) return undefined
  const secret = webhookSecret(Buffer.from(linkToken(secretKey, 'text gateway', row.nonce), 'base64url'))
  return { address: row.address, secret }
}

/** Whether texts go out by themselves. */
export async function hasGateway(db: Kysely<Database>): Promise<boolean> {
  const row = await db.selectFrom('text_gateway').select('only').executeTakeFirst()
  return row !== undefined
}
