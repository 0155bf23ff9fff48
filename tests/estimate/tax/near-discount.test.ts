import { expect, it } from 'vitest'
import { plainTerms } from '../../../src/estimate/job/terms.ts'
import { hasNear, withNear, withoutNear } from '../../../src/quotes/near-discount.ts'
import type { QuoteWithLines } from '../../../src/quotes/queries.ts'
import { testTable } from '../jobs.ts'
import { taxedOnly, taxOf } from '../taxes.ts'

const FIVE = { by: 'share', value: '0.05' } as const
const table = testTable({
  minimumCharge: '150',
  tax: taxOf({ rate: '0.10', taxed: { upkeep: taxedOnly('finish'), new: taxedOnly() } }),
})

/** A price of a finish, which is taxed, and a line of the contractor's own, which isn't. */
function price(finish: string, own: string): QuoteWithLines {
  const bare = { quantity: null, unit: null, rate: null, worked_out: null, reason: 'so' }
  const lines = [
    { ...bare, position: 1, kind: 'finish', slug: 'shredded-wood', description: null, amount: finish },
    { ...bare, position: 2, kind: 'other', slug: null, description: 'Gate', amount: own },
  ]
  const job = { beds: [], extras: [], postcode: '' }
  return { lines, job, terms: plainTerms, tax: null, total: '0' } as unknown as QuoteWithLines
}
const shown = ({ lines, total }: QuoteWithLines) => [
  ...lines.map(({ kind, amount }) => [kind, amount]),
  total,
]

it('takes a share of the lines before tax, and is taxed in the share that they are', () => {
  // 5 % of 400 is 20, of which three quarters are taxed: a tenth of 300 less 15 is 28.50.
  const near = withNear(price('300.00', '100.00'), FIVE, table)!
  expect(shown(near)).toEqual([
    ['finish', '300.00'],
    ['other', '100.00'],
    ['other', '-20.00'],
    ['tax', '28.50'],
    '408.50',
  ])
  expect(near.lines.map(({ position }) => position)).toEqual([1, 2, 3, 4])
  expect([hasNear(near), near.tax!.taxed]).toEqual([true, '285.00'])
  // Without it the tax is that of 300 again.
  expect(shown(withoutNear(near, table))).toEqual([
    ['finish', '300.00'],
    ['other', '100.00'],
    ['tax', '30.00'],
    '430.00',
  ])
  // Taken twice it is taken once.
  expect(shown(withNear(near, FIVE, table)!)).toEqual(shown(near))
})

it.each([
  ['money', { by: 'money', value: '35.00' }, '300.00', '-35.00'],
  ['a share, down to the minimum charge', FIVE, '54.00', '-4.00'],
  ['more than there is, down to the minimum charge', { by: 'money', value: '900.00' }, '300.00', '-250.00'],
] as const)('takes %s', (_what, discount, finish, amount) => {
  expect(withNear(price(finish, '100.00'), discount, table)!.lines[2]!.amount).toBe(amount)
})

it('takes nothing off a minimum charge, nor below it', () => {
  expect(withNear(price('50.00', '100.00'), FIVE, table)).toBeUndefined()
  expect(withNear(price('20.00', '100.00'), FIVE, table)).toBeUndefined()
})
