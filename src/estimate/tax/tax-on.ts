import { cents, Decimal, one, roundToCent, sumOf, zero } from '../../lib/decimal.ts'
import type { Terms } from '../job/terms.ts'
import type { RateTable } from '../table/rate-table.ts'
import type { Tax, TaxedKind } from '../table/tax.ts'
import { covers, plainPostcode } from '../table/travel.ts'

/** A line as tax sees it. */
export interface TaxableLine {
  kind: string
  amount: string
}

/**
 * The tax on a price, in money: the lines that it is on and those it isn't on, together all that the lines come to,
 * and its amount, which comes on top unless the prices have it in them.
 */
export interface TaxDue {
  rate: string
  included: boolean
  taxed: string
  untaxed: string
  amount: string
  /** What is taken off prices with tax in them for whoever is exempt. */
  off: string
}

/**
 * The tax on lines of a job at a ZIP or postcode; null where the business charges none. Whoever is exempt owes none: of
 * prices with tax in them it is taken off.
 */
export function taxOn(lines: TaxableLine[], postcode: string, terms: Terms, table: RateTable): TaxDue | null {
  const { tax } = table
  if (tax === null) return null
  if (terms.exempt !== '' && tax.prices === 'with') return takenOff(lines, postcode, terms, table)
  const rate = taxRate(postcode, table)
  const included = tax.prices === 'with'
  const bases = basesOf(lines, terms, tax)
  const taxed = sumOf(bases)
  const share = included ? new Decimal(rate).div(one.plus(rate)) : new Decimal(rate)
  const exact =
    tax.rounded === 'line'
      ? sumOf(bases.map(base => roundToCent(base.times(share))))
      : roundToCent(taxed.times(share))
  // What is taxed may be less than nothing where the contractor takes some off; nobody is paid a tax for that.
  const amount = Decimal.max(zero, exact)
  const total = sumOf(lines.map(line => new Decimal(line.amount)))
  return {
    rate,
    included,
    taxed: cents(taxed),
    untaxed: cents(total.minus(taxed)),
    amount: cents(amount),
    off: '0.00',
  }
}

function takenOff(lines: TaxableLine[], postcode: string, terms: Terms, table: RateTable): TaxDue | null {
  const owed = taxOn(lines, postcode, { ...terms, exempt: '' }, table)
  if (owed === null) return null
  const untaxed = cents(new Decimal(owed.taxed).plus(owed.untaxed))
  return { ...owed, taxed: '0.00', untaxed, amount: '0.00', off: owed.amount }
}

/** The rate where the work is done, as a share; '0' where no tax is charged. */
function taxRate(postcode: string, { tax }: Pick<RateTable, 'tax'>): string {
  if (tax === null) return '0'
  const asked = plainPostcode(postcode)
  const area = asked && tax.areas.find(one => one.postcodes.some(listed => covers(listed, asked)))
  return area ? area.rate : tax.rate
}

// What each line gives to the base.
function basesOf(lines: TaxableLine[], terms: Terms, tax: Tax): Decimal[] {
  if (terms.exempt !== '') return lines.map(() => zero)
  const share = taxedShare(lines, terms, tax)
  return lines.map(({ kind, amount }) => {
    const known = kindOf(kind)
    if (known) return tax.taxed[terms.work][known] ? new Decimal(amount) : zero
    return roundToCent(share.times(amount))
  })
}

/**
 * The share of the plain lines that is taxed: what changes them all, as a discount, is taxed in the same share. Lines
 * below zero, as the contractor may add, count for none of it: else it could be more than all.
 */
function taxedShare(lines: TaxableLine[], terms: Terms, tax: Tax): Decimal {
  const flags = tax.taxed[terms.work]
  const plain = lines.flatMap(({ kind, amount }) => {
    const known = kindOf(kind)
    return known && Number(amount) > 0 ? [{ taxed: flags[known], amount: new Decimal(amount) }] : []
  })
  const all = sumOf(plain.map(({ amount }) => amount))
  if (all.isZero()) return flags.finish ? one : zero
  return sumOf(plain.filter(({ taxed }) => taxed).map(({ amount }) => amount)).div(all)
}

function kindOf(kind: string): TaxedKind | null {
  switch (kind) {
    case 'finish':
    case 'laying':
    case 'extra':
    case 'travel':
    case 'other':
      return kind
    case 'set-up':
      return 'laying'
    default:
      return null
  }
}
