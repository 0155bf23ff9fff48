import type { Tax, TaxedKind } from '../../src/estimate/table/tax.ts'

const kinds: TaxedKind[] = ['finish', 'laying', 'extra', 'travel', 'other']

/** Flags by kind of line: those named are taxed, no others; 'all' taxes every kind. */
export function taxedOnly(...named: TaxedKind[] | ['all']): Record<TaxedKind, boolean> {
  const taxes = (kind: TaxedKind) => (named as string[]).includes('all') || named.includes(kind as never)
  return Object.fromEntries(kinds.map(kind => [kind, taxes(kind)])) as Record<TaxedKind, boolean>
}

/** A tax of an invented 8 % on everything, added to the bill and rounded once. */
export function taxOf(changes: Partial<Tax> = {}): Tax {
  return {
    name: { en: 'Sales tax', es: 'Impuesto sobre las ventas' },
    prices: 'without',
    rate: '0.08',
    areas: [],
    taxed: { upkeep: taxedOnly('all'), new: taxedOnly('all') },
    newWork: { rate: null, name: { en: null, es: null }, certificate: false, asked: false },
    second: { rate: null, newRate: null, name: { en: null, es: null } },
    rounded: 'bill',
    inRanges: false,
    onPurchases: '0',
    purchasesGivenBack: false,
    onPurchasesNew: null,
    ...changes,
  }
}
