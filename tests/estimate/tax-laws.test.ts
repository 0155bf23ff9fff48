import fc from 'fast-check'
import { expect, it } from 'vitest'
import { plainTerms } from '../../src/estimate/job/terms.ts'
import { withTax } from '../../src/estimate/price/firm-price.ts'
import type { Tax, TaxedKind } from '../../src/estimate/table/tax.ts'
import { testTable } from './jobs.ts'
import { taxOf } from './taxes.ts'

const taxedKinds: TaxedKind[] = ['finish', 'laying', 'extra', 'travel', 'other']

const inCents = (least: number, most: number) =>
  fc.integer({ min: least, max: most }).map(cents => (cents / 100).toFixed(2))

// Lines as a quote has them: what is worked out, what changes it all, and the contractor's own, which may take off.
const lines = fc
  .tuple(
    fc.array(
      fc.record({
        kind: fc.constantFrom('finish', 'laying', 'set-up', 'extra', 'travel'),
        amount: inCents(0, 90_000),
      }),
      { minLength: 1, maxLength: 6 },
    ),
    fc.array(fc.record({ kind: fc.constantFrom('size', 'adjustment'), amount: inCents(-9_000, 0) }), {
      maxLength: 2,
    }),
    fc.array(fc.record({ kind: fc.constant('minimum'), amount: inCents(1, 9_000) }), { maxLength: 1 }),
    fc.array(fc.record({ kind: fc.constant('other'), amount: inCents(-9_000, 9_000) }), { maxLength: 2 }),
  )
  .map(parts => parts.flat())

const flags = fc.record(
  Object.fromEntries(taxedKinds.map(kind => [kind, fc.boolean()])) as Record<
    TaxedKind,
    fc.Arbitrary<boolean>
  >,
)

const taxes: fc.Arbitrary<Tax> = fc
  .record({
    prices: fc.constantFrom<Tax['prices']>('without', 'with'),
    rounded: fc.constantFrom<Tax['rounded']>('line', 'bill'),
    rate: fc.integer({ min: 0, max: 2500 }).map(parts => (parts / 10_000).toFixed(4)),
    taxed: fc.record({ upkeep: flags, new: flags }),
    second: fc
      .constantFrom(null, '0', '0.0125')
      .map(rate => ({ rate, newRate: null, name: { en: 'City', es: 'Ciudad' } })),
  })
  .map(taxOf)

const terms = fc.record({
  work: fc.constantFrom<'upkeep' | 'new'>('upkeep', 'new'),
  exempt: fc.oneof({ weight: 4, arbitrary: fc.constant('') }, { weight: 1, arbitrary: fc.constant('EX-9') }),
})

const cents = (amount: string) => Math.round(Number(amount) * 100)

it('what is taxed and what isn’t are together all of the lines, and net and tax are the total', () => {
  fc.assert(
    fc.property(lines, taxes, terms, (some, tax, settled) => {
      const paid = withTax(some, '', { ...plainTerms, ...settled }, testTable({ tax }))
      const sum = some.reduce((all, { amount }) => all + cents(amount), 0)
      const due = paid.tax!
      expect(cents(due.taxed) + cents(due.untaxed)).toBe(sum)
      const both = {
        amount: cents(due.amount) + cents(due.second?.amount ?? '0'),
        off: cents(due.off) + cents(due.second?.off ?? '0'),
      }
      expect(cents(paid.net) + both.amount).toBe(cents(paid.total))
      expect(tax.prices === 'with' ? cents(paid.total) + both.off : cents(paid.net)).toBe(sum)
    }),
    { numRuns: 500 },
  )
})

it('the tax is the rate on its base, never below zero, to half a cent for the bill or for each line', () => {
  fc.assert(
    fc.property(lines, taxes, terms, (some, tax, settled) => {
      const { tax: due } = withTax(some, '', { ...plainTerms, ...settled }, testTable({ tax }))
      const all = Number(tax.rate) + Number(tax.second.rate ?? 0)
      const base = Math.max(0, Number(due!.taxed)) / (tax.prices === 'with' ? 1 + all : 1)
      const within = 0.005 * (tax.rounded === 'line' ? some.length : 1) + 1e-9
      expect(due!.second === undefined).toBe(tax.second.rate === null)
      for (const { rate, amount } of due!.second ? [due!, due!.second] : [due!]) {
        expect(Number(amount)).toBeGreaterThanOrEqual(0)
        expect(Math.abs(Number(amount) - base * Number(rate))).toBeLessThanOrEqual(within)
      }
    }),
    { numRuns: 500 },
  )
})

it('with everything taxed the base is all, with nothing or a certificate it is none', () => {
  const all = Object.fromEntries(taxedKinds.map(kind => [kind, true])) as Tax['taxed']['new']
  const none = Object.fromEntries(taxedKinds.map(kind => [kind, false])) as Tax['taxed']['new']
  fc.assert(
    fc.property(lines, taxes, (some, tax) => {
      const baseOf = (taxed: typeof all, exempt: string) =>
        withTax(
          some,
          '',
          { ...plainTerms, exempt },
          testTable({ tax: { ...tax, taxed: { upkeep: taxed, new: taxed } } }),
        ).tax!
      const sum = some.reduce((total, { amount }) => total + cents(amount), 0)
      expect(cents(baseOf(all, '').taxed)).toBe(sum)
      expect(baseOf(none, '').taxed).toBe('0.00')
      expect(baseOf(all, 'EX-9')).toMatchObject({ taxed: '0.00', amount: '0.00' })
    }),
    { numRuns: 200 },
  )
})

it('when no line takes off, no more is taxed than what the lines come to', () => {
  fc.assert(
    fc.property(lines, taxes, (some, tax) => {
      const plus = some.filter(({ amount }) => Number(amount) >= 0)
      const { tax: due } = withTax(plus, '', plainTerms, testTable({ tax }))
      expect(cents(due!.taxed)).toBeGreaterThanOrEqual(0)
      expect(cents(due!.untaxed)).toBeGreaterThanOrEqual(0)
    }),
    { numRuns: 300 },
  )
})
