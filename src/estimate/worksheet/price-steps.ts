import { Decimal, middleOf, one } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extraQuantity } from '../job/extras.ts'
import { tierOf } from '../job/job-size.ts'
import type { FinishQuantities, JobQuantities } from '../job/quantities.ts'
import type { Terms } from '../job/terms.ts'
import { crewHourCost } from '../labor/crew-hour.ts'
import { costToPrice, plusFactor } from '../price/cost-plus.ts'
import type { PriceLine } from '../price/price-lines.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { TaxDue } from '../tax/tax-on.ts'
import { unitSystem } from '../units/units.ts'
import type { Figures } from './figures.ts'

/** What the steps of a price are told from. */
export interface PriceTold {
  job: Job
  quantities: JobQuantities
  lines: PriceLine[]
  tax: TaxDue | null
  total: string
  terms: Terms
  table: RateTable
  figures: Figures
}

/** How every line of a price comes about, and the total. */
export function priceSteps(told: PriceTold): string[] {
  const { lines, total, figures: f } = told
  return [...lines.map(line => lineStep(line, told)), ...taxStep(told), `Total: ${f.money(total)}`]
}

function lineStep(line: PriceLine, told: PriceTold): string {
  const { table, terms, figures: f } = told
  const amount = f.money(line.amount)
  switch (line.kind) {
    case 'finish':
      return finishStep(line, told)
    case 'laying':
      return `Labor, on its own line: ${amount}`
    case 'size':
      return `Larger-job rate. Priced as the next size up, with the cheapest material to fill the gap, it costs less: ${amount}`
    case 'set-up':
      return `Setup, from its cost: ${amount}`
    case 'extra':
      return extraStep(line, told)
    case 'travel':
      return `Travel to ${told.job.postcode}: ${amount}`
    case 'adjustment': {
      const { by, value, reason } = terms.adjustment!
      const how = by === 'share' ? `${f.share(value)} of the lines above` : 'as agreed'
      return `${Number(line.amount) < 0 ? 'Discount' : 'Surcharge'} (${reason}), ${how}: ${amount}`
    }
    case 'minimum':
      return `Added to reach the minimum charge of ${f.money(table.minimumCharge)}: ${amount}`
    default:
      return line.kind satisfies never
  }
}

function finishStep(line: PriceLine, told: PriceTold): string {
  const { quantities, table, figures: f } = told
  const found = quantities.finishes.find(({ finish }) => finish.slug === line.slug)!
  const apart = found.finish.materialShare
  const shown =
    apart === null ? f.money(line.amount) : `of which ${f.share(apart)} as material, ${f.money(line.amount)}`
  if (found.finish.pricedBy === 'cost') return `${found.finish.name.en}: ${costSteps(found, told)} = ${shown}`
  const bulk = found.inPlace.div(unitSystem(table.units).volumesPerBulk)
  const rate = found.finish.rates[tierOf(quantities, table)]!
  const between =
    rate.lower === rate.upper ? '' : `, halfway between ${f.money(rate.lower)} and ${f.money(rate.upper)}`
  return `${found.finish.name.en}: ${f.bulk(bulk)} × ${f.money(middleOf(rate))}${between} = ${shown}`
}

function costSteps({ finish, slowed }: FinishQuantities, { quantities, table, figures: f }: PriceTold): string {
  const { costPlus, labor } = table
  const bought = costToPrice(finish.slug, quantities, table)
  const hours = slowed.times(middleOf(labor.spread)).div(unitSystem(table.units).volumesPerBulk)
  const hour = crewHourCost(table) ?? new Decimal(0)
  const factor =
    costPlus.by === 'markup'
      ? `× (1 + ${f.plain(costPlus.share, 4)})`
      : `÷ (1 − ${f.plain(costPlus.share, 4)})`
  const cost = bought.plus(hours.times(hour))
  return `(${f.money(bought.toDecimalPlaces(2))} to buy + ${f.hours(hours)} × ${f.money(hour)}) ${factor} = ${f.money(cost.times(plusFactor(table)).toDecimalPlaces(2))}`
}

function extraStep(line: PriceLine, { job, quantities, table, figures: f }: PriceTold): string {
  const extra = table.extras.find(({ slug }) => slug === line.slug)!
  const { units, unitsPer } = extraQuantity(extra, job, quantities, table)
  const between =
    extra.lower === extra.upper ? '' : `, halfway between ${f.money(extra.lower)} and ${f.money(extra.upper)}`
  return `${extra.name.en}: ${f.plain(units.div(unitsPer))} × ${f.money(middleOf(extra))}${between} = ${f.money(line.amount)}`
}

function taxStep({ tax, terms, table, figures: f }: PriceTold): string[] {
  if (tax === null || table.tax === null) return []
  const name = table.tax.name.en
  if (Number(tax.off) > 0)
    return [
      `${name} taken off, under certificate ${terms.exempt}: ${f.money(new Decimal(tax.off).negated())}`,
    ]
  if (terms.exempt !== '') return [`${name}: none, under certificate ${terms.exempt}`]
  const left = Number(tax.untaxed) === 0 ? '' : ` (${f.money(tax.untaxed)} isn’t taxed)`
  const each = table.tax.rounded === 'line' ? ', each line rounded to the cent' : ''
  return tax.included
    ? [
        `${name}, included: ${f.money(tax.taxed)}${left} × ${f.share(tax.rate)} ÷ ${f.share(one.plus(tax.rate))}${each} = ${f.money(tax.amount)}`,
      ]
    : [`${name}: ${f.money(tax.taxed)}${left} × ${f.share(tax.rate)}${each} = ${f.money(tax.amount)}`]
}
