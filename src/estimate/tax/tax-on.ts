import { cents, Decimal, one, roundToCent, sumOf, zero } from '../../lib/decimal.ts'
import type { Terms } from '../job/terms.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { TaxedKind } from '../table/tax.ts'
import { ratesAt, taxedAs } from './rates-at.ts'

/** The slug of the discount for a day with work near, which changes all lines of its price. */
export const NEAR = 'near'

/** A line as tax sees it; slug names the extra of an extra's lines. */
export interface TaxableLine {
  kind: string
  amount: string
  slug?: string | null
}

/** What a tax comes to: amount is charged, off is taken off prices with tax in them for whoever is exempt. */
export interface TaxAmount {
  rate: string
  amount: string
  off: string
}

/**
 * The tax on a price, in money: the lines that it is on and those it isn't on, together all that the lines come to,
 * and its amount, which comes on top unless the prices have it in them.
 */
export interface TaxDue extends TaxAmount {
  included: boolean
  taxed: string
  untaxed: string
  /** A second tax on the same lines, left out where there is none. */
  second?: TaxAmount
}

/**
 * The tax on lines of a job at a ZIP or postcode; null where the business charges none. Whoever is exempt owes none: of
 * prices with tax in them it is taken off.
 */
export function taxOn(lines: TaxableLine[], postcode: string, terms: Terms, table: RateTable): TaxDue | null {
  const { tax } = table
  if (tax === null) return null
  const exempt = terms.exempt !== ''
  const included = tax.prices === 'with'
  const { rate, second } = ratesAt(postcode, terms, tax)
  const bases = basesOf(lines, terms, table)
  const both = one.plus(rate).plus(second ?? 0)
  const amountAt = (rate: string): TaxAmount => {
    const share = included ? new Decimal(rate).div(both) : new Decimal(rate)
    const amount = cents(amountOf(bases, share, tax.rounded))
    return exempt ? { rate, amount: '0.00', off: included ? amount : '0.00' } : { rate, amount, off: '0.00' }
  }
  const taxed = exempt ? zero : sumOf(bases)
  const total = sumOf(lines.map(line => new Decimal(line.amount)))
  return {
    ...amountAt(rate),
    included,
    taxed: cents(taxed),
    untaxed: cents(total.minus(taxed)),
    ...(second === null ? {} : { second: amountAt(second) }),
  }
}

/** All that is charged, and all that is taken off, in money. */
export function taxesOf({ amount, off, second }: TaxDue): { amount: Decimal; off: Decimal } {
  return {
    amount: new Decimal(amount).plus(second?.amount ?? 0),
    off: new Decimal(off).plus(second?.off ?? 0),
  }
}

function amountOf(bases: Decimal[], share: Decimal, rounded: 'bill' | 'line'): Decimal {
  const exact =
    rounded === 'line'
      ? sumOf(bases.map(base => roundToCent(base.times(share))))
      : roundToCent(sumOf(bases).times(share))
  // What is taxed may be less than nothing where the contractor takes some off; nobody is paid a tax for that.
  return Decimal.max(zero, exact)
}

// What each line gives to the base.
function basesOf(lines: TaxableLine[], terms: Terms, table: RateTable): Decimal[] {
  const flags = table.tax!.taxed[taxedAs(terms, table.tax!)]
  const told = lines.map(line => isTaxed(line, flags, table))
  const share = taxedShare(lines, told, flags)
  return lines.map(({ amount }, index) => {
    const taxed = told[index]!
    if (taxed === null) return roundToCent(share.times(amount))
    return taxed ? new Decimal(amount) : zero
  })
}

/**
 * The share of the plain lines that is taxed: what changes them all, as a discount, is taxed in the same share. Lines
 * below zero, as the contractor may add, count for none of it: else it could be more than all.
 */
function taxedShare(
  lines: TaxableLine[],
  told: (boolean | null)[],
  flags: Record<TaxedKind, boolean>,
): Decimal {
  const amountsOf = (wanted: boolean[]) =>
    sumOf(
      lines.flatMap(({ amount }, index) =>
        wanted.includes(told[index]!) && Number(amount) > 0 ? [new Decimal(amount)] : [],
      ),
    )
  const all = amountsOf([true, false])
  if (all.isZero()) return flags.finish ? one : zero
  return amountsOf([true]).div(all)
}

// Null of what changes all the others.
function isTaxed(line: TaxableLine, flags: Record<TaxedKind, boolean>, table: RateTable): boolean | null {
  switch (line.kind) {
    case 'finish':
    case 'laying':
    case 'travel':
      return flags[line.kind]
    case 'other':
      return line.slug === NEAR ? null : flags.other
    case 'set-up':
      return flags.laying
    case 'extra':
    case 'extra-labor':
      return isExtraTaxed(line, flags, table)
    default:
      return null
  }
}

function isExtraTaxed(
  { kind, slug }: TaxableLine,
  flags: Record<TaxedKind, boolean>,
  { extras }: RateTable,
): boolean {
  const extra = extras.find(one => one.slug === slug)
  if (extra && extra.taxed !== 'usual') return extra.taxed === 'yes'
  if (kind === 'extra-labor') return flags.laying
  return extra && extra.materialShare !== null ? flags.finish : flags.extra
}
