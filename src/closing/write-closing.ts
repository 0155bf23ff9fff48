import type { Insertable, Transaction } from 'kysely'
import type { JobClosingTable } from '../db/schema/jobs.ts'
import type { Database } from '../db/schema.ts'
import { isCheckViolation } from '../db/violations.ts'
import { Conflict } from '../http/errors.ts'

/**
 * Writes a version down, and gives its id. Whatever is to forbid it from some time on, as a bill does, is a trigger of the
 * table by this name.
 * @throws {Conflict} where there is a bill for the job
 */
export async function insertClosing(
  trx: Transaction<Database>,
  closing: Insertable<JobClosingTable>,
): Promise<number> {
  try {
    const { id } = await trx
      .insertInto('job_closing')
      .values(closing)
      .returning('id')
      .executeTakeFirstOrThrow()
    return id
  } catch (error) {
    if (isCheckViolation(error, 'job_closing_not_billed')) throw new Conflict('closing.billed')
    throw error
  }
}
