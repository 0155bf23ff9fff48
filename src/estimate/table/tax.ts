import { z } from 'zod'
import { choice, postcodes, share, shareOrNone, text, textOrNone, yes } from './row.ts'

/** The kinds of line that a tax takes or leaves; a minimum, a size of job and an adjustment follow the others. */
export type TaxedKind = 'finish' | 'laying' | 'extra' | 'travel' | 'other'

const inTax = { section: 'tax', file: 'tax.csv' }
const shown = { ...inTax, heading: 'How it’s shown' }
const inNewWork = { ...inTax, heading: 'In new work' }
const apart = { ...inTax, heading: 'A second tax' }
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

const newWork = z.object({
  rate: shareOrNone('tax rate in new work', 'Rate in new work', {
    ...inNewWork,
    meaning: 'Empty: the same as when you refresh beds.',
  }),
  name: z.object({
    en: textOrNone('tax in new work', 'Its name there in English', {
      ...inNewWork,
      meaning: 'Such as a contractor’s tax. Empty: the same name.',
    }),
    es: textOrNone('tax in new work in Spanish', 'Its name there in Spanish', {
      ...inNewWork,
      meaning: 'Empty: the same name.',
    }),
  }),
  certificate: yes('certificate for new work', 'These rules need a certificate', {
    ...inNewWork,
    meaning: 'Quotes for new work ask for it. Without it, tax is charged as when you refresh beds.',
    before: false,
  }),
  /** Whether ranges, and a quote that begins, go by the kind of work that was told. */
  asked: yes('asked about new beds', 'Ask homeowners whether their beds are new', {
    ...inNewWork,
    meaning: 'Only if tax is different for new work. Price ranges and new quotes go by the answer.',
    before: false,
    start: true,
  }),
})

/** A tax on the same lines as the first, such as a city's, shown on a line of its own; none while it has no rate. */
const second = z.object({
  rate: shareOrNone('second tax rate', 'Rate of the second tax', {
    ...apart,
    meaning: 'Empty: there is none. It’s on the same lines as the first.',
  }),
  newRate: shareOrNone('second tax rate in new work', 'Its rate in new work', {
    ...apart,
    meaning: 'Empty: the same. 0 if there’s none in new work.',
  }),
  name: z.object({
    en: textOrNone('second tax', 'Its name in English', {
      ...apart,
      meaning: 'Such as City tax. Empty: there is none.',
    }),
    es: textOrNone('second tax in Spanish', 'Its name in Spanish', {
      ...apart,
      meaning: 'Empty: there is none.',
    }),
  }),
})

/** Tax on a price. None is built in, and what is taxed is the owner's to say. */
export const tax = z.object({
  name: z.object({
    en: text('tax', 'Its name in English', { ...inTax, start: '' }),
    es: text('tax in Spanish', 'Its name in Spanish', { ...inTax, start: '' }),
  }),
  rate: share('tax rate', 'Rate', {
    ...inTax,
    start: '',
    meaning: 'Everywhere except areas with their own rate.',
  }),
  prices: choice(
    'prices',
    'Your prices',
    { without: 'don’t include it: it’s added', with: 'include it' },
    { ...shown, start: 'without' },
  ),
  rounded: choice(
    'tax rounded',
    'Rounded to the cent',
    { bill: 'on the whole bill', line: 'on each line' },
    { ...shown, start: 'bill' },
  ),
  inRanges: yes('tax in ranges', 'Price ranges that homeowners see include it', { ...shown, start: false }),
  areas: z.array(
    z.object({
      postcodes: postcodes(),
      rate: share('rate', 'Rate there'),
      second: shareOrNone('second rate', 'Rate of the second tax there', {
        meaning: 'Empty: the same as everywhere.',
      }),
    }),
  ),
  taxed: z.object({
    upkeep: taxed('Taxed when you refresh beds', 'upkeep of beds'),
    new: taxed('Taxed in new work', 'new work'),
  }),
  newWork,
  second,
  onPurchases: share('tax on purchases', 'Sales tax you pay', { ...bought, start: '0', secret: true }),
  purchasesGivenBack: yes('tax on purchases given back', 'You get it back, so it isn’t a cost', {
    ...bought,
    start: false,
  }),
  onPurchasesNew: shareOrNone(
    'tax on purchases for new work',
    'For new work, what you pay and don’t get back',
    {
      ...bought,
      secret: true,
      meaning: 'Empty: the same as for upkeep.',
    },
  ),
})

export type Tax = z.infer<typeof tax>
