import { type NewAccount, readNewAccount } from '../account/new-account-form.ts'
import { type BusinessFacts, readBusinessFacts } from '../business/form.ts'
import type { Units } from '../db/schema.ts'
import { starterFinishes, starterTable } from '../estimate/starter/starter.ts'
import { starterExtras } from '../estimate/starter/starter-extras.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { rateTableSchema } from '../estimate/table/rate-table-schema.ts'
import { type Errors, FormFields } from '../http/form-fields.ts'
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
const again = 'Press “Fill the empty prices” once more, or put your own in.'
const OTHER_UNITS: Record<Units, string> = {
  us: `The invented prices below are those for cubic yards and feet. ${again}`,
  metric: `The invented prices below are those for cubic meters and meters. ${again}`,
}

export type SetUpReading = { ok: true; values: SetUpValues } | { ok: false; errors: Errors }

/** Reads the set-up form's flat fields. */
export function readSetUp(body: unknown): SetUpReading {
  const fields = new FormFields(body)
  const owner = readNewAccount(fields, 'owner', [fields.text('business.name')])
  const business = readBusinessFacts(fields, body)
  const units = readUnits(fields)
  const currency = readCurrency(fields)
  const extras = starterExtras(units).map(extra => extra.slug)
  const filledFor = filledForOthers(fields.typed, units)
  if (filledFor && !fields.errors.units) fields.errors.units = OTHER_UNITS[filledFor]
  const { handful, errors: faulty } = readHandful(body, starterFinishes(units), extras)
  const errors = { ...fields.errors, ...faulty }
  if (Object.keys(errors).length > 0) return { ok: false, errors }
  const rateTable = rateTableSchema.parse(withHandful(starterTable(units, currency), handful))
  return { ok: true, values: { owner, business, rateTable } }
}

/** The units picked; 'us', and a fault, where none are. */
export function readUnits(fields: FormFields): Units {
  const units = fields.text('units')
  if (units === 'us' || units === 'metric') return units
  fields.errors.units = 'Pick the units that you work in.'
  return 'us'
}

function readCurrency(fields: FormFields): string {
  const currency = fields.text('currency').toUpperCase()
  if (Intl.supportedValuesOf('currency').includes(currency)) return currency
  fields.errors.currency = 'Give the currency by its three letters, such as USD.'
  return 'USD'
}
