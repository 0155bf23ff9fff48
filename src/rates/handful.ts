import { type StarterFinish, starterFinishes } from '../estimate/starter/starter.ts'
import { type StarterExtra, siteExtras, starterExtras } from '../estimate/starter/starter-extras.ts'
import type { Extra, Finish, RateTable } from '../estimate/table/rate-table.ts'
import { withoutLost } from '../estimate/table/substitutes.ts'
import { middleOf } from '../lib/decimal.ts'
import { withDrives, type ZoneTold } from './travel.ts'

export interface Rate {
  lower: string
  upper: string
}

/** The numbers that the owner gives, as plain decimals; a finish or an extra that isn't named isn't offered. */
export interface Handful {
  /** By finish, one rate for each size of job: the first column, then one from each of `tiers`. */
  rates: Record<string, Rate[]>
  extras: Record<string, Rate>
  minimumCharge: string
  tiers: string[]
  laborHoursPerVolume: string
  travel: ZoneTold[]
  costs: { wage: string | null; material: Record<string, string | null> }
}

/** Every finish that can be offered: those of the table, then those of the starter list that it leaves out. */
export function offerableFinishes(table: RateTable): (Finish | StarterFinish)[] {
  return [...table.finishes, ...leftOut(starterFinishes(table.units), table.finishes)]
}

/** Every extra that can be offered, in the same way. */
export function offerableExtras(table: RateTable): (Extra | StarterExtra)[] {
  const known = [...starterExtras(table.units), ...siteExtras(table.units)]
  return [...table.extras, ...leftOut(known, table.extras)]
}

/** A rate table with the owner's numbers put in place of its own. */
export function withHandful(table: RateTable, handful: Handful): RateTable {
  return withoutLost({
    ...table,
    finishes: offerableFinishes(table)
      .filter(finish => handful.rates[finish.slug])
      .map(finish => ({
        ...finish,
        rates: fitColumns(handful.rates[finish.slug]!, handful.tiers.length + 1),
        materialCost: handful.costs.material[finish.slug] ?? null,
      })),
    extras: offerableExtras(table)
      .filter(extra => handful.extras[extra.slug])
      .map(extra => ({ ...extra, ...handful.extras[extra.slug]! })),
    minimumCharge: handful.minimumCharge,
    tiers: handful.tiers,
    labor: withSpread(table.labor, handful.laborHoursPerVolume),
    travel: withDrives(handful.travel, table.travel),
    costs: { ...table.costs, wage: handful.costs.wage },
  })
}

/** A rate table's handful as the fields of its form, by field name. */
export function fieldsOf(table: RateTable): Record<string, string> {
  const fields: Record<string, string> = {
    minimumCharge: table.minimumCharge,
    tiers: table.tiers.join('; '),
    laborHoursPerVolume: middleOf(table.labor.spread).toString(),
    'costs.wage': table.costs.wage ?? '',
  }
  for (const finish of table.finishes) {
    fields[`material.${finish.slug}`] = finish.materialCost ?? ''
    finish.rates.forEach((rate, column) => {
      fields[`rates.${finish.slug}.${column}.lower`] = rate.lower
      fields[`rates.${finish.slug}.${column}.upper`] = rate.upper
    })
  }
  for (const extra of table.extras) {
    fields[`extras.${extra.slug}.lower`] = extra.lower
    fields[`extras.${extra.slug}.upper`] = extra.upper
  }
  table.travel.forEach((zone, index) => {
    fields[`travel.${index}.postcodes`] = zone.postcodes.join('\n')
    fields[`travel.${index}.charge`] = zone.charge
  })
  return fields
}

// One figure stands for both where it isn't the middle of the two that there are.
function withSpread(labor: RateTable['labor'], hours: string): RateTable['labor'] {
  const same = middleOf(labor.spread).eq(hours)
  return same ? labor : { ...labor, spread: { lower: hours, upper: hours } }
}

// A new size of job begins with the rates of the one before it, for the owner to change.
function fitColumns(rates: Rate[], columns: number): Rate[] {
  return Array.from({ length: columns }, (_, column) => rates[column] ?? rates.at(-1)!)
}

function leftOut<T extends { slug: string }>(all: T[], present: { slug: string }[]): T[] {
  return all.filter(one => !present.some(other => other.slug === one.slug))
}
