import type { RateTable } from '../../../estimate/table/rate-table.ts'
import { type Tax, taxedKinds } from '../../../estimate/table/tax.ts'
import { choice, figure, figures, percent, text, texts, tick } from '../entries.ts'
import type { FormField, Section } from '../section.ts'

export function pricesSection({ minimumCharge, tiers, currency }: RateTable): Section {
  return {
    key: 'prices',
    title: 'Minimum charge and sizes of job',
    holds: `minimum ${minimumCharge} ${currency}; ${tiers.length ? `other rates from ${tiers.join(', ')}` : 'one rate whatever the size'}`,
    adds: 'With sizes of job in, larger jobs have rates of their own.',
    base: '',
    parts: [
      {
        fields: [
          { path: 'minimumCharge', label: 'Minimum charge for a job', entry: figure, unit: '{money}' },
          {
            path: 'tiers',
            label: 'Sizes of job from which other rates hold',
            entry: figures,
            unit: '{bulk}',
            hint: 'For example 5; 10. Each new size starts with the rates of the one before it; then change them under each finish.',
          },
        ],
      },
    ],
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

const postcodes: FormField = {
  path: 'postcodes',
  label: 'ZIPs or postcodes',
  entry: texts,
  hint: '787* stands for all that begin with 787.',
}

export function travelSection({ travel }: RateTable): Section {
  return {
    key: 'travel',
    title: 'Where you go',
    holds: travel.length
      ? `${travel.length === 1 ? 'one zone' : `${travel.length} zones`} with a charge of their own`
      : 'anywhere, without a charge',
    adds: 'With zones in, travel is charged, and people outside them are told.',
    base: '',
    parts: [
      {
        list: 'travel',
        one: 'Zone',
        blank: {},
        ordered: true,
        fields: () => [postcodes, { path: 'charge', label: 'Travel charge', entry: figure, unit: '{money}' }],
      },
    ],
  }
}

const noTax: Tax = {
  name: { en: '', es: '' },
  prices: 'without',
  rate: '',
  areas: [],
  taxed: { upkeep: allTaxed(), new: allTaxed() },
  rounded: 'bill',
  inRanges: false,
  onPurchases: '0',
  purchasesGivenBack: false,
}

function allTaxed() {
  return { finish: true, laying: true, extra: true, travel: true, other: true }
}

const kindWords = {
  finish: 'material',
  laying: 'laying',
  extra: 'extras',
  travel: 'travel',
  other: 'other lines',
} as const

function taxedFields(work: 'upkeep' | 'new'): FormField[] {
  return taxedKinds.map(kind => ({
    path: `tax.taxed.${work}.${kind}`,
    label: `On ${kindWords[kind]}`,
    entry: tick,
  }))
}

const charged = choice(['no', 'no tax'], ['yes', 'tax, as follows'])

export function taxSection({ tax }: RateTable): Section {
  return {
    key: 'tax',
    title: 'Sales tax',
    holds: tax === null ? 'none' : `${tax.name.en}, by ${tax.areas.length + 1} rates`,
    adds: 'With tax in, quotes show it in a line of its own. Which rate and what is taxed your tax office says.',
    base: '',
    besides: [{ path: 'charged', label: 'Quotes have', entry: charged }],
    besideValues: { charged: tax === null ? 'no' : 'yes' },
    parts: [
      {
        fields: [
          { path: 'tax.name.en', label: 'What it is called in English', entry: text },
          { path: 'tax.name.es', label: 'What it is called in Spanish', entry: text },
          {
            path: 'tax.rate',
            label: 'Rate',
            entry: percent,
            unit: '%',
            hint: 'Everywhere but in the areas below.',
          },
          {
            path: 'tax.prices',
            label: 'Your prices',
            entry: choice(['without', 'are without it: it is added'], ['with', 'have it in them']),
          },
          {
            path: 'tax.rounded',
            label: 'Rounded to the cent',
            entry: choice(['bill', 'of the whole bill'], ['line', 'of each line']),
          },
          { path: 'tax.inRanges', label: 'Ranges that homeowners see have it in them', entry: tick },
        ],
      },
      { heading: 'Taxed in upkeep of beds', fields: taxedFields('upkeep') },
      { heading: 'Taxed in new work', fields: taxedFields('new') },
      {
        heading: 'On what you buy',
        fields: [
          { path: 'tax.onPurchases', label: 'Tax put on it', entry: percent, unit: '%' },
          { path: 'tax.purchasesGivenBack', label: 'You get it back: it is no cost', entry: tick },
        ],
      },
      {
        list: 'tax.areas',
        heading: 'Areas with another rate',
        one: 'Area',
        blank: {},
        ordered: true,
        fields: () => [postcodes, { path: 'rate', label: 'Rate there', entry: percent, unit: '%' }],
      },
    ],
    open: table => (table.tax ? table : { ...table, tax: noTax }),
    instead: (table, typed) => (typed.charged === 'no' ? { ...table, tax: null } : undefined),
  }
}
