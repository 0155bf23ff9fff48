import { Decimal, middleOf } from '../../lib/decimal.ts'
import type { Job } from '../job/bed.ts'
import { extraQuantity } from '../job/extras.ts'
import { tierOf } from '../job/job-size.ts'
import type { FinishQuantities, JobQuantities } from '../job/quantities.ts'
import type { Terms } from '../job/terms.ts'
import { crewHourCost } from '../labor/crew-hour.ts'
import type { Shopping } from '../packs/shopping.ts'
import { plusFactor } from '../price/cost-plus.ts'
import type { PriceLine } from '../price/price-lines.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { TaxDue } from '../tax/tax-on.ts'
import { unitSystem } from '../units/units.ts'
import type { Figures } from './figures.ts'
import { taxSteps } from './tax-steps.ts'

/** What the steps of a price are told from. */
export interface PriceTold {
  job: Job
  quantities: JobQuantities
  shopping: Shopping
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
  return [...lines.map(line => lineStep(line, told)), ...taxSteps(told), `Total: ${f.money(total)}`]
}

function lineStep(line: PriceLine, told: PriceTold): string {
  const { table, terms, figures: f } = told
  const amount = f.money(line.amount)
  switch (line.kind) {
    case 'finish':
      return finishStep(line, told)
    case 'laying':
    case 'extra-labor':
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
  const shown = materialOf(found.finish.materialShare, f.money(line.amount), f)
  if (found.finish.pricedBy === 'cost') return `${found.finish.name.en}: ${costSteps(found, told)} = ${shown}`
  const bulk = found.inPlace.div(unitSystem(table.units).volumesPerBulk)
  const rate = found.finish.rates[tierOf(quantities, table)]!
  const between =
    rate.lower === rate.upper ? '' : `, halfway between ${f.money(rate.lower)} and ${f.money(rate.upper)}`
  return `${found.finish.name.en}: ${f.bulk(bulk)} × ${f.money(middleOf(rate))}${between} = ${shown}`
}

function materialOf(share: string | null, amount: string, f: Figures): string {
  return share === null ? amount : `of which ${f.share(share)} as material, ${amount}`
}

function costSteps({ finish, slowed }: FinishQuantities, { shopping, table, figures: f }: PriceTold): string {
  const { costPlus, labor } = table
  const bought = shopping.finishes.find(one => one.finish.slug === finish.slug)!.buying!.taken.total
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
  const shown = materialOf(extra.materialShare, f.money(line.amount), f)
  return `${extra.name.en}: ${f.plain(units.div(unitsPer))} × ${f.money(middleOf(extra))}${between} = ${shown}`
}
