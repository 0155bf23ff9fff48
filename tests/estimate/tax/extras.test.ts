import { expect, it } from 'vitest'
import { plainTerms, type Terms } from '../../../src/estimate/job/terms.ts'
import { workOutPrice } from '../../../src/estimate/price/firm-price.ts'
import type { Extra } from '../../../src/estimate/table/rate-table.ts'
import type { Tax } from '../../../src/estimate/table/tax.ts'
import { jobOf, testTable } from '../jobs.ts'
import { taxedOnly, taxOf } from '../taxes.ts'

// 1 yd³ at 90 and 108 ft² of weeding at 0.20: 90.00 and 21.60. Rates of tax are invented.
function priced(extra: Partial<Extra>, tax: Partial<Tax>, terms: Partial<Terms> = {}) {
  const table = testTable({ tax: taxOf({ rate: '0.10', ...tax }) })
  const extras = table.extras.map(one => (one.slug === 'weeding' ? { ...one, ...extra } : one))
  const changed = { ...table, extras }
  const job = jobOf([{ shape: 'area', sizes: { area: '108' } }], changed, ['weeding'])
  return workOutPrice(job, changed, { ...plainTerms, ...terms })
}

const only = (...kinds: Parameters<typeof taxedOnly>) => ({
  taxed: { upkeep: taxedOnly(...kinds), new: taxedOnly() },
})

it.each([
  // Ten percent of 90, and of 21.60 where the extra is taxed.
  ['usual', only('all'), '11.16'],
  ['usual', only('finish'), '9.00'],
  ['yes', only('finish'), '11.16'],
  ['no', only('all'), '9.00'],
] as const)('an extra is taxed as it says, %s', (taxed, tax, amount) => {
  expect(priced({ taxed }, tax).tax!.amount).toBe(amount)
})

it('an extra that is always taxed is so in new work too', () => {
  expect(priced({ taxed: 'yes' }, only('all'), { work: 'new' }).tax!.amount).toBe('2.16')
})

it('the material and the labor of an extra stand on two lines, each taxed as material and labor are', () => {
  const shares = { materialShare: '0.25' }
  const { lines, tax, total } = priced(shares, only('finish'))
  // A quarter of 21.60 is 5.40.
  expect(lines.map(({ kind, slug, quantity, amount }) => [kind, slug, quantity?.value, amount])).toEqual([
    ['finish', 'shredded-wood', '1.0000', '90.00'],
    ['extra', 'weeding', '108.0000', '5.40'],
    ['extra-labor', 'weeding', undefined, '16.20'],
  ])
  expect([tax!.taxed, tax!.amount, total]).toEqual(['95.40', '9.54', '121.14'])
  expect(priced(shares, only('laying')).tax!.taxed).toBe('16.20')
  expect(priced(shares, only('extra')).tax!.taxed).toBe('0.00')
  expect(priced({ ...shares, taxed: 'no' }, only('all')).tax!.taxed).toBe('90.00')
})

it('a discount is taxed in the share of the lines that are, those of such extras too', () => {
  const adjustment = { by: 'money', value: '-21.60', reason: 'a neighbor' } as const
  const { tax } = priced({ taxed: 'no' }, only('all'), { adjustment })
  // 90 of 111.60 are taxed: 17.419… of the 21.60 come off what is.
  expect(tax!.taxed).toBe('72.58')
})
