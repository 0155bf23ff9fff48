import type { BusinessFacts } from '../business/business-form.ts'
import { isUniqueViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import type { NewAccount } from '../first-run/set-up-form.ts'
import { Conflict, NotFound } from '../http/errors.ts'
import { hashPassword } from './password.ts'
import { insertAccount } from './queries.ts'

/** Writes what the owner now says of the business; units and currency stay as they were set up. */
export async function changeBusiness(deps: Deps, facts: BusinessFacts): Promise<void> {
  await deps.db
    .updateTable('business')
    .set({
      name: facts.name,
      phone: facts.phone,
      email: facts.email,
      time_zone: facts.timeZone,
      crew_hours_a_day: facts.crewHoursADay,
      quote_holds_days: facts.quoteHoldsDays,
      answer_within_days: facts.answerWithinDays,
      working_days: facts.workingDays,
    })
    .execute()
}

/**
 * Makes an account for somebody who helps.
 * @throws {Conflict} when somebody signs in with that mail address already
 */
export async function addHelper(deps: Deps, { name, email, password }: NewAccount): Promise<void> {
  const password_hash = await hashPassword(password)
  const made_at = deps.now().toString()
  try {
    await deps.db
      .transaction()
      .execute(trx => insertAccount(trx, { name, email, role: 'helper', password_hash, made_at }))
  } catch (error) {
    if (isUniqueViolation(error, 'account_email')) throw new Conflict('account.email-taken')
    throw error
  }
}

/**
 * Ends a helper's account and every session of it. The row stays, because history names it.
 * @throws {NotFound} when there is no such helper, or not any more
 */
export async function removeHelper(deps: Deps, id: number): Promise<void> {
  await deps.db.transaction().execute(async trx => {
    const ended = await trx
      .updateTable('account')
      .set({ ended_at: deps.now().toString() })
      .where('id', '=', id)
      .where('role', '=', 'helper')
      .where('ended_at', 'is', null)
      .executeTakeFirstOrThrow()
    if (ended.numUpdatedRows === 0n) throw new NotFound()
    await trx.deleteFrom('session').where('account_id', '=', id).execute()
  })
}
