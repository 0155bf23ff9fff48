import { randomInt } from 'node:crypto'
import type { Kysely, Transaction } from 'kysely'
import type { Database } from '../db/schema.ts'
import { linkToken } from '../lib/tokens.ts'

const HOW_MANY = 10
// Without what looks alike.
const CHARACTERS = 'abcdefghjkmnpqrstuvwxyz23456789'
const HALF = 5

/** Makes an account's ten codes anew, 49 bits each, as 'abcde-fghjk'; gives them, as only keyed hashes are stored. */
export async function makeRecoveryCodes(
  trx: Transaction<Database>,
  secretKey: string,
  accountId: number,
): Promise<string[]> {
  const codes = Array.from({ length: HOW_MANY }, () => `${half()}-${half()}`)
  await trx.deleteFrom('recovery_code').where('account_id', '=', accountId).execute()
  await trx
    .insertInto('recovery_code')
    .values(codes.map(code => ({ account_id: accountId, code_hash: hashOf(secretKey, accountId, code) })))
    .execute()
  return codes
}

/** Uses a code up; gives whether it was one that was left. */
export async function useRecoveryCode(
  db: Kysely<Database>,
  secretKey: string,
  accountId: number,
  typed: string,
): Promise<boolean> {
  const { numDeletedRows } = await db
    .deleteFrom('recovery_code')
    .where('account_id', '=', accountId)
    .where('code_hash', '=', hashOf(secretKey, accountId, typed))
    .executeTakeFirstOrThrow()
  return numDeletedRows > 0n
}

/** How many codes of an account are left. */
export async function countRecoveryCodes(db: Kysely<Database>, accountId: number): Promise<number> {
  const rows = await db
    .selectFrom('recovery_code')
    .select('code_hash')
    .where('account_id', '=', accountId)
    .execute()
  return rows.length
}

function half(): string {
  return Array.from({ length: HALF }, () => CHARACTERS[randomInt(CHARACTERS.length)]).join('')
}

function hashOf(secretKey: string, accountId: number, code: string): string {
  const plain = code.toLowerCase().replace(/[^a-z0-9]/g, '')
  return linkToken(secretKey, 'recovery code', `${accountId}\n${plain}`)
}
