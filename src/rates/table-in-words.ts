import { middleOf } from '../estimate/decimal.ts'
import type { RateTable } from '../estimate/rate-table.ts'
import { unitSystem } from '../estimate/units.ts'
import { moneyInWords } from '../lib/money-in-words.ts'

/** The rate table in force as its page shows it, every cell a text. */
export interface TableInWords {
  columns: string[]
  finishes: { name: string; depth: string; rates: string[] }[]
  extras: { name: string; rate: string; per: string }[]
  /** "cubic yard" or "cubic meter". */
  bulk: string
  facts: { label: string; text: string }[]
}

const SHORT = { yd3: 'yd³', m3: 'm³' } as const
const LONG = { yd3: 'cubic yard', m3: 'cubic meter' } as const

/** Puts a rate table into words, in English; the owner's page shows it. */
export function tableInWords(table: RateTable): TableInWords {
  const system = unitSystem(table.units)
  const money = (amount: string) => moneyInWords(amount, table.currency, 'en', { whole: true })
  const span = (rate: { lower: string; upper: string }) => `${money(rate.lower)} to ${money(rate.upper)}`
  const bulk = bulkWord(table.units)
  return {
    columns: columnsOf(table, SHORT[system.bulk as keyof typeof SHORT]),
    finishes: table.finishes.map(finish => ({
      name: finish.name.en,
      depth: `${finish.depth.usual} ${system.depth}`,
      rates: finish.rates.map(span),
    })),
    extras: table.extras.map(extra => ({
      name: extra.name.en,
      rate: span(extra),
      per: perInWords(extra.per, table.units),
    })),
    bulk,
    facts: [
      { label: 'Minimum charge', text: money(table.minimumCharge) },
      { label: `Crew hours for a ${bulk}`, text: middleOf(table.labour.spread).toString() },
      ...table.travel.map(zone => ({
        label: `Travel ${money(zone.charge)}`,
        text: zone.postcodes.join(', '),
      })),
    ],
  }
}

/** What finishes are reckoned by: "cubic yard" or "cubic meter". */
export function bulkWord(units: RateTable['units']): string {
  return LONG[unitSystem(units).bulk]
}

/** What an extra is charged by, as "per foot of edge". */
export function perInWords(per: RateTable['extras'][number]['per'], units: RateTable['units']): string {
  const us = units === 'us'
  switch (per) {
    case 'job':
      return 'per job'
    case 'bed':
      return 'per bed'
    case 'area':
      return us ? 'per square foot' : 'per square meter'
    case 'edge':
      return us ? 'per foot of edge' : 'per meter of edge'
    case 'volume':
      return us ? 'per cubic yard' : 'per cubic meter'
    case 'lying':
      return us ? 'per cubic yard taken out' : 'per cubic meter taken out'
    default:
      return per satisfies never
  }
}

function columnsOf(table: RateTable, unit: string): string[] {
  if (table.tiers.length === 0) return ['Rate']
  return [`Under ${table.tiers[0]} ${unit}`, ...table.tiers.map(from => `From ${from} ${unit}`)]
}
