import { figure, figureOrNone, text, textOrNone, word, wordOrNone, words, yesOrNo } from './cells.ts'
import { listFile } from './list-file.ts'
import type { Field } from './rows.ts'

/** slug and both names, of whatever has them. */
export const named: Field[] = [
  {
    name: 'slug',
    path: 'slug',
    cell: word,
    meaning: 'its own short name: small letters, digits and hyphens; another slug is another thing',
  },
  { name: 'name', path: 'name.en', cell: text, meaning: 'what people read, in English' },
  { name: 'name in Spanish', path: 'name.es', cell: text, meaning: 'what people read, in Spanish' },
]

export const pinnedAndCautions: { pinned: Field; cautions: Field } = {
  pinned: {
    name: 'pinned way to buy',
    path: 'pinned',
    cell: textOrNone,
    meaning: 'a pack’s slug with :collected or :delivered; empty: the cheapest',
  },
  cautions: {
    name: 'cautions',
    path: 'cautions',
    cell: words,
    meaning: 'codes of cautions.csv, with spaces between',
  },
}

const fields: Field[] = [
  ...named,
  {
    name: 'least depth',
    path: 'depth.least',
    cell: figure,
    unit: '{depth}',
    meaning: 'thinner than that brings a caution',
  },
  {
    name: 'usual depth',
    path: 'depth.usual',
    cell: figure,
    unit: '{depth}',
    meaning: 'where no depth is asked for',
  },
  {
    name: 'greatest depth',
    path: 'depth.greatest',
    cell: figure,
    unit: '{depth}',
    meaning: 'deeper than that brings a caution',
  },
  {
    name: 'hatch',
    path: 'hatch',
    cell: word,
    meaning: 'how it is drawn: shreds, chips, straw, dots or pebbles',
  },
  { name: 'swatch', path: 'swatch', cell: word, meaning: 'its colour, such as #8a5a2b' },
  {
    name: 'photo',
    path: 'photo',
    cell: wordOrNone,
    meaning: 'the name of its photo, as it was written here; empty: the swatch is drawn',
  },
  {
    name: 'priced by',
    path: 'pricedBy',
    cell: word,
    meaning: 'rate: by rates.csv; cost: by what it costs, and a margin',
  },
  {
    name: 'material cost',
    path: 'materialCost',
    cell: figureOrNone,
    unit: '{money} per {bulk}',
    meaning: 'where packs.csv has no way to buy it; empty: not known',
  },
  pinnedAndCautions.pinned,
  {
    name: 'dry density',
    path: 'densityDry',
    cell: figureOrNone,
    unit: '{weight} per {bulk}',
    meaning: 'empty: not known',
  },
  {
    name: 'wet density',
    path: 'densityWet',
    cell: figureOrNone,
    unit: '{weight} per {bulk}',
    meaning: 'empty: not known',
  },
  {
    name: 'thinnest top-up',
    path: 'thinnestTopUp',
    cell: figureOrNone,
    unit: '{depth}',
    meaning: 'its own; empty: that of settings.csv',
  },
  {
    name: 'allowance',
    path: 'allowance',
    cell: figureOrNone,
    unit: 'share',
    meaning: 'its own; empty: that of settings.csv',
  },
  {
    name: 'material share',
    path: 'materialShare',
    cell: figureOrNone,
    unit: 'share',
    meaning: 'the part of its price shown as material; empty: laying isn’t shown apart',
  },
  {
    name: 'offered',
    path: 'offered',
    cell: yesOrNo,
    meaning: 'whether homeowners are shown it: yes or no',
  },
  {
    name: 'sold out',
    path: 'soldOut',
    cell: yesOrNo,
    meaning: 'whether it can’t be picked for the time being: yes or no',
  },
  {
    name: 'substitutes',
    path: 'substitutes',
    cell: words,
    meaning: 'slugs of the finishes that come close to it, the closest first, with spaces between',
  },
  pinnedAndCautions.cautions,
]

export const finishesFile = listFile({
  file: 'finishes.csv',
  about: 'What beds are dressed with, in the order in which it is shown.',
  list: 'finishes',
  fields,
  filledLater: ['rates', 'packs'],
  keyOf: finish => finish.slug,
  wordsOf: finish => finish.name.en,
})
