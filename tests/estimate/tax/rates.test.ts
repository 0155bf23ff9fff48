import { expect, it } from 'vitest'
import { plainTerms, type Terms } from '../../../src/estimate/job/terms.ts'
import { withTax } from '../../../src/estimate/price/firm-price.ts'
import type { Tax } from '../../../src/estimate/table/tax.ts'
import { ratesAt, taxedAs } from '../../../src/estimate/tax/rates-at.ts'
import { taxOn } from '../../../src/estimate/tax/tax-on.ts'
import { testTable } from '../jobs.ts'
import { taxOf } from '../taxes.ts'

// All rates here are invented.
const names = { en: null, es: null }
const tax = taxOf({
  rate: '0.05',
  areas: [{ postcodes: ['437*'], rate: '0.06', second: '0.015' }],
  second: { rate: '0.01', newRate: null, name: { en: 'City', es: 'Ciudad' } },
  newWork: { rate: '0.02', name: names, certificate: false, asked: false },
})
const at = (postcode: string, terms: Partial<Terms> = {}, changes: Partial<Tax> = {}) =>
  Object.values(ratesAt(postcode, { ...plainTerms, ...terms }, { ...tax, ...changes }))

it('a rate is that typed for the job, else of new work, else of the place, else the usual one', () => {
  expect(at('')).toEqual(['0.05', '0.01'])
  expect(at('43701')).toEqual(['0.06', '0.015'])
  expect(at('43701', { work: 'new' })).toEqual(['0.02', '0.015'])
  expect(at('43701', { work: 'new' }, { second: { ...tax.second, newRate: '0' } })).toEqual(['0.02', '0'])
  const rates = { rate: '0.07', second: null, reason: 'in between two towns' }
  expect(at('43701', { work: 'new', rates })).toEqual(['0.07', '0.015'])
  expect(at('43701', { rates: { ...rates, rate: '0', second: '0.03' } })).toEqual(['0', '0.03'])
  expect(
    at('43701', { rates: { ...rates, second: '0.03' } }, { second: { ...tax.second, rate: null } }),
  ).toEqual(['0.07', null])
})

it('new work that needs a certificate is upkeep until there is one', () => {
  const needs = { ...tax, newWork: { ...tax.newWork, certificate: true } }
  const work = (terms: Partial<Terms>, rules = needs) => taxedAs({ ...plainTerms, ...terms }, rules)
  expect(work({ work: 'new' })).toBe('upkeep')
  expect(work({ work: 'new', certificate: 'in the binder' })).toBe('new')
  expect(work({ certificate: 'in the binder' })).toBe('upkeep')
  expect(work({ work: 'new' }, tax)).toBe('new')
})

it('two taxes that prices have in them are each taken out of what is left without both', () => {
  const table = testTable({
    tax: { ...tax, rate: '0.20', prices: 'with', second: { ...tax.second, rate: '0.05' } },
  })
  const lines = [{ kind: 'finish', amount: '250.00' }]
  // 250 are 200 and 20 % and 5 % of them.
  const paid = withTax(lines, '', plainTerms, table)
  expect([paid.tax!.amount, paid.tax!.second!.amount]).toEqual(['40.00', '10.00'])
  expect([paid.net, paid.total]).toEqual(['200.00', '250.00'])
  const exempt = withTax(lines, '', { ...plainTerms, exempt: 'C-1' }, table)
  expect([exempt.tax!.off, exempt.tax!.second!.off, exempt.total]).toEqual(['40.00', '10.00', '200.00'])
})

it('each tax is rounded by itself, line by line where that is chosen', () => {
  const lines = ['10.00', '10.00', '10.00'].map(amount => ({ kind: 'finish', amount }))
  const due = (rounded: Tax['rounded']) => {
    const second = { ...tax.second, rate: '0.0125' }
    const { amount, second: other } = taxOn(
      lines,
      '',
      plainTerms,
      testTable({ tax: { ...tax, rate: '0.0825', second, rounded } }),
    )!
    return [amount, other!.amount]
  }
  // Of 10: .825 and .125, thrice .83 and .13; of 30: 2.475 and .375.
  expect(due('line')).toEqual(['2.49', '0.39'])
  expect(due('bill')).toEqual(['2.48', '0.38'])
})
