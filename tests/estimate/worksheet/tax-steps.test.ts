import { expect, it } from 'vitest'
import { plainTerms, type Terms } from '../../../src/estimate/job/terms.ts'
import type { Tax } from '../../../src/estimate/table/tax.ts'
import { worksheetOf } from '../../../src/estimate/worksheet/worksheet.ts'
import { jobOf, testTable } from '../jobs.ts'
import { taxedOnly, taxOf } from '../taxes.ts'

// 2 yd³ at 90: 180.00. Rates of tax are invented.
function steps(tax: Partial<Tax>, terms: Partial<Terms> = {}): string[] {
  const table = testTable({ tax: taxOf(tax) })
  const job = jobOf([{ shape: 'volume', sizes: { volume: '2 yd' } }], table)
  return worksheetOf(job, table, { ...plainTerms, ...terms }).price.slice(1)
}

const second = { rate: '0.015', newRate: null, name: { en: 'City tax', es: 'Impuesto municipal' } }
const contractors = { en: 'Contractor’s tax', es: 'Impuesto del contratista' }

it('a second tax has its step, in prices that include both too', () => {
  // 8 % and 1.5 % of 180 are 14.40 and 2.70; of 180 with both in them 13.150… and 2.465….
  expect(steps({ second })).toEqual([
    'Sales tax: $180.00 × 8% = $14.40',
    'City tax: $180.00 × 1.5% = $2.70',
    'Total: $197.10',
  ])
  expect(steps({ second, prices: 'with' })).toEqual([
    'Sales tax, included: $180.00 × 8% ÷ 109.5% = $13.15',
    'City tax, included: $180.00 × 1.5% ÷ 109.5% = $2.47',
    'Total: $180.00',
  ])
})

it('a rate typed for the job stands with its reason and what it is instead of', () => {
  const rates = { rate: '0.0625', second: null, reason: 'in between two towns' }
  expect(steps({ second }, { rates })).toEqual([
    'Rate for this job (in between two towns), instead of 8% and 1.5%',
    'Sales tax: $180.00 × 6.25% = $11.25',
    'City tax: $180.00 × 1.5% = $2.70',
    'Total: $193.95',
  ])
})

it('new work says so, with its certificate or without the one that it needs', () => {
  const newWork = { rate: '0.02', name: contractors, certificate: true, asked: false }
  const tax = { newWork, taxed: { upkeep: taxedOnly('all'), new: taxedOnly('all') } }
  expect(steps(tax, { work: 'new' })).toEqual([
    'Tax as in upkeep: there’s no certificate for the new work',
    'Sales tax: $180.00 × 8% = $14.40',
    'Total: $194.40',
  ])
  expect(steps(tax, { work: 'new', certificate: 'ST-124' })).toEqual([
    'Tax as in new work, certificate: ST-124',
    'Contractor’s tax: $180.00 × 2% = $3.60',
    'Total: $183.60',
  ])
  expect(steps(tax, { work: 'new', certificate: 'ST-124', exempt: 'EX-1' })).toEqual([
    'Contractor’s tax: none, under certificate EX-1',
    'Total: $180.00',
  ])
})
