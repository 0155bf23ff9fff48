import type { Name } from './names.ts'

/** The kinds of line that a tax takes or leaves; a minimum, a size of job and an adjustment follow the others. */
export const taxedKinds = ['finish', 'laying', 'extra', 'travel', 'other'] as const
export type TaxedKind = (typeof taxedKinds)[number]

/** Tax on a price. Rates are shares, 0.0825 is 8.25 %; none is built in, and what is taxed is the owner's to say. */
export interface Tax {
  name: Name
  /** Whether the prices of the table are without it, and it is added, or have it in them. */
  prices: 'without' | 'with'
  /** By where the work is done; `rate` holds everywhere else. */
  rate: string
  areas: { postcodes: string[]; rate: string }[]
  /** Which kinds of line are taxed, in upkeep of beds and in new work. */
  taxed: Record<'upkeep' | 'new', Record<TaxedKind, boolean>>
  /** Whether each line's tax is rounded, or that of the whole bill. */
  rounded: 'line' | 'bill'
  /** Whether ranges that homeowners see have it in them. */
  inRanges: boolean
  /** The share put on what is bought; a cost unless it is given back. */
  onPurchases: string
  purchasesGivenBack: boolean
}
