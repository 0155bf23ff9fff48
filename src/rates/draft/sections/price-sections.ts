import type { z } from 'zod'
import type { RateTable } from '../../../estimate/table/rate-table.ts'
import { partAt } from '../../../estimate/table/rows.ts'
import type { Tax } from '../../../estimate/table/tax.ts'
import { startOf } from '../../../estimate/table/values.ts'
import { moneyInWords } from '../../../language/money-in-words.ts'
import { sizesInWords } from '../../start/rate-words.ts'
import { choice, percent } from '../entries.ts'
import { foldedBlocks, listOf, sectionBlocks } from '../figure-fields.ts'
import type { Section } from '../section.ts'

/** The minimum charge and sizes of job, travel, and tax. */
export function priceSections(table: RateTable, figures: z.ZodObject): Section[] {
  return [pricesSection(table, figures), travelSection(table, figures), taxSection(table, figures)]
}

function pricesSection(table: RateTable, figures: z.ZodObject): Section {
  const { minimumCharge, tiers, currency } = table
  const minimum = moneyInWords(minimumCharge, currency, 'en', { whole: true })
  return {
    key: 'prices',
    title: 'Minimum charge and job sizes',
    holds: `minimum ${minimum}; ${tiers.length ? `rates ${sizesInWords(table).join(', ')}` : 'the same rates for all sizes'}`,
    adds: 'Charge different rates for larger jobs.',
    base: '',
    parts: sectionBlocks('prices', figures),
    close: fitRates,
  }
}

// As many sizes as before are the same ones moved; else a size that stays keeps its rates, wherever it now stands.
function fitRates(
  table: RateTable,
  _typed: Record<string, string>,
  _fault: unknown,
  before: RateTable,
): RateTable {
  if (table.tiers.length === before.tiers.length) return table
  const columnOf = (from: string) => before.tiers.findIndex(tier => Number(tier) === Number(from)) + 1
  const finishes = table.finishes.map(finish => {
    const rates = [finish.rates[0]!]
    for (const from of table.tiers)
      rates.push(columnOf(from) > 0 ? finish.rates[columnOf(from)]! : rates.at(-1)!)
    return { ...finish, rates }
  })
  return { ...table, finishes }
}

function travelSection(table: RateTable, figures: z.ZodObject): Section {
  const { travel } = table
  return {
    key: 'travel',
    title: 'Where you go',
    holds: travel.length
      ? travel.length === 1
        ? 'one zone'
        : `${travel.length} zones`
      : 'anywhere, no travel charge',
    adds: 'Add zones to charge for travel. Homeowners outside them are told you don’t usually work there.',
    base: '',
    parts: [listOf('travel', 'Zone', table, figures)],
  }
}

const charged = choice(['no', 'no tax'], ['yes', 'the tax below'])

// One rate is enough to begin with; everything else is folded away under what it would add.
const TAX_ADDS: Record<string, string> = {
  'How it’s shown': 'Use prices that include the tax, or show it in price ranges.',
  'Taxed when you refresh beds': 'Leave out what isn’t taxed where you work, such as labor.',
  'Taxed in new work': 'Leave out what isn’t taxed when the beds are new.',
  'In new work': 'Charge a different rate when the beds are new, or ask for a certificate.',
  'A second tax': 'Show a city or county tax on a line of its own.',
  'On what you buy': 'Count the sales tax you pay on material as a cost.',
}
const AREAS_ADD = 'Charge the rate of the place where the work is.'

function taxSection(table: RateTable, figures: z.ZodObject): Section {
  const { tax } = table
  const whole = (partAt(figures, 'tax') as z.ZodNullable<z.ZodObject>).unwrap()
  return {
    key: 'tax',
    title: 'Sales tax',
    holds:
      tax === null
        ? 'none'
        : `${tax.name.en}, ${percent.write(tax.rate)}%${tax.areas.length > 0 ? `; areas with a different rate: ${tax.areas.length}` : ''}`,
    adds: 'Quotes then show tax on its own line. Your tax office tells you the rate and what’s taxed.',
    base: '',
    besides: [{ path: 'charged', label: 'Quotes have', entry: charged }],
    besideValues: { charged: tax === null ? 'no' : 'yes' },
    parts: [
      ...foldedBlocks(sectionBlocks('tax', figures), TAX_ADDS, { tax: startOf(whole, table.units) }),
      listOf('tax.areas', 'Area', table, figures, 'Areas with a different rate', AREAS_ADD),
    ],
    open: table => (table.tax ? table : { ...table, tax: startOf(whole, table.units) as Tax }),
    instead: (table, typed) => (typed.charged === 'no' ? { ...table, tax: null } : undefined),
  }
}
