import { z } from 'zod'
import { choice, postcodes, share, text, yes } from './row.ts'

/** The kinds of line that a tax takes or leaves; a minimum, a size of job and an adjustment follow the others. */
export type TaxedKind = 'finish' | 'laying' | 'extra' | 'travel' | 'other'

const inTax = { section: 'tax', file: 'tax.csv' }
const bought = { ...inTax, heading: 'On what you buy' }

function taxed(heading: string, inWords: string) {
  const kind = (code: TaxedKind, words: string) =>
    yes(`taxed in ${inWords}: ${code}`, `On ${words}`, { ...inTax, heading, start: true })
  return z.object({
    finish: kind('finish', 'material'),
    laying: kind('laying', 'labor'),
    extra: kind('extra', 'extras'),
    travel: kind('travel', 'travel'),
    other: kind('other', 'other lines'),
  })
}

/** Tax on a price. None is built in, and what is taxed is the owner's to say. */
export const tax = z.object({
  name: z.object({
    en: text('tax', 'Its name in English', { ...inTax, start: '' }),
    es: text('tax in Spanish', 'Its name in Spanish', { ...inTax, start: '' }),
  }),
  prices: choice(
    'prices',
    'Your prices',
    { without: 'don’t include it: it’s added', with: 'include it' },
    { ...inTax, start: 'without' },
  ),
  rate: share('tax rate', 'Rate', {
    ...inTax,
    start: '',
    meaning: 'Everywhere except areas with their own rate.',
  }),
  areas: z.array(z.object({ postcodes: postcodes(), rate: share('rate', 'Rate there') })),
  taxed: z.object({
    upkeep: taxed('Taxed when you refresh beds', 'upkeep of beds'),
    new: taxed('Taxed in new work', 'new work'),
  }),
  rounded: choice(
    'tax rounded',
    'Rounded to the cent',
    { bill: 'on the whole bill', line: 'on each line' },
    { ...inTax, start: 'bill' },
  ),
  inRanges: yes('tax in ranges', 'Price ranges that homeowners see include it', { ...inTax, start: false }),
  onPurchases: share('tax on purchases', 'Sales tax you pay', { ...bought, start: '0', secret: true }),
  purchasesGivenBack: yes('tax on purchases given back', 'You get it back, so it isn’t a cost', {
    ...bought,
    start: false,
  }),
})

export type Tax = z.infer<typeof tax>
