import fc from 'fast-check'
import type { Told } from '../../src/estimate/job/bed.ts'
import { plainTerms, type Terms } from '../../src/estimate/job/terms.ts'
import { siteExtras } from '../../src/estimate/starter/starter-extras.ts'
import type { RateTable } from '../../src/estimate/table/rate-table.ts'
import type { Tax } from '../../src/estimate/table/tax.ts'
import type { LinesWanted } from '../../src/quotes/compose-lines.ts'
import { anyCostTable } from '../estimate/cost-priced.ts'
import { anyBeds } from '../estimate/generated.ts'
import { toldBed } from '../estimate/jobs.ts'
import { taxedOnly, taxOf } from '../estimate/taxes.ts'

const SITE = siteExtras('us').map(extra => ({ ...extra, lower: '0.40', upper: '0.75', dumpFee: '9.5' }))

/** Taxes of each kind there is: on top or in the prices, on some lines or all, by the bill or by the line, with areas. */
const anyTax: fc.Arbitrary<Tax | null> = fc.oneof(
  fc.constant(null),
  fc
    .record({
      prices: fc.constantFrom<Tax['prices']>('with', 'without'),
      rate: fc.constantFrom('0.05', '0.0825', '0.25'),
      rounded: fc.constantFrom<Tax['rounded']>('bill', 'line'),
      inRanges: fc.boolean(),
      onPurchases: fc.constantFrom('0', '0.07'),
      purchasesGivenBack: fc.boolean(),
      fewer: fc.boolean(),
    })
    .map(({ fewer, ...rest }) =>
      taxOf({
        ...rest,
        areas: [{ postcodes: ['787*'], rate: '0.0625', second: null }],
        ...(fewer && { taxed: { upkeep: taxedOnly('finish', 'other'), new: taxedOnly('laying') } }),
      }),
    ),
)

/** A rate table in US units and dollars, with everything in it that a price can depend on. */
export const anyVersion: fc.Arbitrary<RateTable> = fc
  .tuple(
    anyCostTable,
    anyTax,
    fc.constantFrom(null, '0.6'),
    fc.constantFrom('0', '25', '42.50'),
    fc.constantFrom('75', '900'),
  )
  .map(([table, tax, materialShare, charge, minimumCharge]) => ({
    ...table,
    tax,
    minimumCharge,
    finishes: table.finishes.map(finish => ({ ...finish, materialShare })),
    extras: [...table.extras, ...SITE],
    travel: [
      { postcodes: ['787*'], charge, drive: null, driven: null },
      { postcodes: ['43004'], charge: '0', drive: null, driven: null },
    ],
  }))

// So little under the next size of job that its rates come to less.
const nearLarger = fc
  .constantFrom('1.9', '5.7')
  .map(volume => [toldBed({ shape: 'volume', sizes: { volume: `${volume} cu yd` }, finish: 'compost' })])

/** Beds and extras as told; some of it only whoever measures would tell. */
export const anyTold: fc.Arbitrary<Told> = fc.record({
  beds: fc.oneof({ weight: 3, arbitrary: anyBeds }, { weight: 1, arbitrary: nearLarger }),
  extras: fc.constantFrom([], ['edging'], ['weeding'], ['weeds-heavy', 'edging'], ['old-out', 'fabric']),
  postcode: fc.constantFrom('', '78701', '43004', '10001'),
})

/** What the contractor settles with a quote, and how much more or less is asked for its first line. */
export const anyWish = fc.record({
  terms: fc.record<Terms>({
    work: fc.constantFrom('upkeep', 'new'),
    exempt: fc.constantFrom('', '', 'C-1234'),
    adjustment: fc.constantFrom(
      plainTerms.adjustment,
      { by: 'share', value: '-0.1', reason: 'Neighbors' },
      { by: 'share', value: '0.075', reason: 'Steep' },
      { by: 'money', value: '-33.33', reason: 'Thanks' },
    ),
  }),
  more: fc.constantFrom('0', '0', '12.34', '-7.07'),
  added: fc.constantFrom<LinesWanted['added']>(
    [],
    [{ description: 'Carry the bales up', amount: '45.01', reason: 'Bank' }],
  ),
})
