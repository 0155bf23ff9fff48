import { type NewAccount, readNewAccount } from '../account/form.ts'
import { type BusinessFacts, readBusinessFacts } from '../business/form.ts'
import type { Units } from '../db/schema/business.ts'
import { starterFinishes, starterTable } from '../estimate/starter/starter.ts'
import { starterExtras } from '../estimate/starter/starter-extras.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { rateTableSchema } from '../estimate/table/rate-table-schema.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { withHandful } from '../rates/handful.ts'
import { readHandful } from '../rates/handful-form.ts'
import { filledForOthers } from './filling.ts'

/** All that the first run asks for. The rate table carries the units and the currency. */
export interface SetUpValues {
  owner: NewAccount
  business: BusinessFacts
  rateTable: RateTable
}

// An invented price of other units would pass for one of the owner's own.
const again = 'Press “Try it with invented prices” once more, or put in your own.'
const OTHER_UNITS: Record<Units, string> = {
  us: `The invented prices below are for cubic yards and feet. ${again}`,
  metric: `The invented prices below are for cubic meters and meters. ${again}`,
}

/** Reads the set-up form. */
export async function readSetUp(fields: FormFields): Promise<FormReading<SetUpValues>> {
  const owner = await readNewAccount(fields.group('owner'), [fields.text('business.name')])
  const business = readBusinessFacts(fields)
  const units = readUnits(fields)
  const currency = readCurrency(fields)
  const extras = starterExtras(units).map(extra => extra.slug)
  const filledFor = filledForOthers(fields.typed, units)
  if (filledFor) fields.fault('units', OTHER_UNITS[filledFor])
  const reading = fields.reading(readHandful(fields, starterFinishes(units), extras))
  if (!reading.ok) return reading
  const rateTable = rateTableSchema.parse(withHandful(starterTable(units, currency), reading.values))
  return { ok: true, values: { owner, business, rateTable } }
}

/** The units picked; 'us', and a fault, where none are. */
export function readUnits(fields: FormFields): Units {
  return fields.choice('units', ['us', 'metric'], 'Pick the units you work in.') ?? 'us'
}

function readCurrency(fields: FormFields): string {
  const currency = fields.text('currency').toUpperCase()
  if (Intl.supportedValuesOf('currency').includes(currency)) return currency
  fields.fault('currency', 'Give the three letters of the currency, such as USD.')
  return 'USD'
}
