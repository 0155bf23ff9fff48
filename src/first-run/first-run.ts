import type { Transaction } from 'kysely'
import { hashPassword } from '../account/password.ts'
import { hasOwner, insertAccount } from '../account/queries.ts'
import type { Database } from '../db/schema.ts'
import { isUniqueViolation } from '../db/violations.ts'
import type { Deps } from '../deps.ts'
import { rateTableSchema } from '../estimate/table/rate-table-schema.ts'
import { Conflict } from '../http/errors.ts'
import { countryOfUnits } from '../language/countries.ts'
import { linkToken, sameSecret } from '../lib/tokens.ts'
import { insertRateTable } from '../rates/queries.ts'
import type { SetUpValues } from './form.ts'

const setUpToken = ({ secretKey }: Pick<Deps, 'secretKey'>) => linkToken(secretKey, 'set-up', 'first owner')

/** The one-time address at which the first owner sets the business up; null once there is one. */
export async function setUpAddress(deps: Pick<Deps, 'config' | 'db' | 'secretKey'>): Promise<string | null> {
  if (await hasOwner(deps.db)) return null
  return `${deps.config.publicUrl}/set-up/${setUpToken(deps)}`
}

/** Whether a token opens the set-up page now: it is the right one, and there is no owner yet. */
export async function opensSetUp(deps: Deps, token: string): Promise<boolean> {
  return sameSecret(token, setUpToken(deps)) && !(await hasOwner(deps.db))
}

/**
 * Makes the owner's account, the business and the first version of its rate table, all or none. Gives the
 * owner's id.
 * @throws {Conflict} when somebody else was faster: the database holds one owner
 * @throws {z.ZodError} when the rate table isn't sound
 */
export async function setUpBusiness(deps: Deps, values: SetUpValues): Promise<number> {
  const at = deps.now().toString()
  const body = rateTableSchema.parse(values.rateTable)
  const { name, email, password } = values.owner
  const password_hash = await hashPassword(password)
  try {
    return await deps.db.transaction().execute(async trx => {
      const owner = await insertAccount(trx, { name, email, role: 'owner', password_hash, made_at: at })
      await insertBusiness(trx, values)
      await insertRateTable(trx, { version: 1, body, made_at: at, made_by: owner.id })
      return owner.id
    })
  } catch (error) {
    if (isUniqueViolation(error)) throw new Conflict('account.set-up-done')
    throw error
  }
}

async function insertBusiness(trx: Transaction<Database>, { business, rateTable }: SetUpValues) {
  await trx
    .insertInto('business')
    .values({
      name: business.name,
      phone: business.phone,
      email: business.email,
      units: rateTable.units,
      country: countryOfUnits(rateTable.units),
      currency: rateTable.currency,
      time_zone: business.timeZone,
      labor_hours_a_day: business.laborHoursADay,
      quote_holds_days: business.quoteHoldsDays,
      answer_within_days: business.answerWithinDays,
      working_days: business.workingDays,
    })
    .execute()
}
