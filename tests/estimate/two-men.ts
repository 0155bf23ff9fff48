import { plainTerms, type Terms } from '../../src/estimate/job/terms.ts'
import { workOutPrice } from '../../src/estimate/price/firm-price.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import { jobOf, testTable } from './jobs.ts'

export const both = (figure: string) => ({ lower: figure, upper: figure })

/**
 * A foreman and a helper with half an hour there and back; wood by its cost, 30 a yd³ and an hour to lay it, at a markup
 * of a fifth. All figures are invented.
 */
export function twoMen({ labor = {}, costs = {}, ...rest }: Changes = {}): RateTable {
  const table = testTable({ allowance: '0', costPlus: { by: 'markup', share: '0.20' }, ...rest })
  return {
    ...table,
    finishes: table.finishes.map(finish => ({ ...finish, pricedBy: 'cost', materialCost: '30' })),
    people: [
      { name: 'Foreman', come: '1', wage: '28', burden: null },
      { name: 'Helper', come: '1', wage: '20', burden: '0.10' },
    ],
    labor: { ...table.labor, spread: both('1'), setUp: both('0.5'), drive: '0.5', driven: '20', ...labor },
    costs: {
      ...table.costs,
      burden: '0.25',
      overheadPerLaborHour: '4',
      truckBy: 'day',
      truckEach: '60',
      ...costs,
    },
    ...rest,
  }
}

type Changes = Omit<Partial<RateTable>, 'labor' | 'costs'> & {
  labor?: Partial<RateTable['labor']>
  costs?: Partial<RateTable['costs']>
}

export const yards = (volume: number) => [{ shape: 'volume', sizes: { volume: `${volume} yd` } }]

export function priceOf(volume: number, table: RateTable, terms: Terms = plainTerms, postcode = '') {
  return workOutPrice(jobOf(yards(volume), table, [], postcode), table, terms)
}

/** The hours of every task of so many yd³. */
export const hours = (volume: number, table: RateTable, postcode = '') =>
  Object.fromEntries(
    priceOf(volume, table, plainTerms, postcode).laborHours.map(({ task, hours }) => [task, hours]),
  )
