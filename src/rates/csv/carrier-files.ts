import { figure, figureOrNone, text, textOrAbsent, word } from './cells.ts'
import { named } from './finish-files.ts'
import { listFile } from './list-file.ts'

export const carriersFile = listFile({
  file: 'carriers.csv',
  about: 'What a trip carries: the truck’s bed, and a trailer where there is one.',
  list: 'carriers',
  fields: [
    ...named.filter(({ name }) => name !== 'slug'),
    { name: 'volume', path: 'volume', cell: figure, unit: '{bulk}', meaning: 'filled level' },
    {
      name: 'payload',
      path: 'payload',
      cell: figureOrNone,
      unit: '{weight}',
      meaning: 'what it may carry; empty: not known',
    },
  ],
  keyOf: carrier => carrier.name.en,
  wordsOf: carrier => `carrier ${carrier.name.en}`,
})

export const cautionsFile = listFile({
  file: 'cautions.csv',
  about: 'The warnings that are shown where they matter; one left out is never shown.',
  list: 'cautions',
  fields: [
    { name: 'code', path: 'code', cell: word, meaning: 'which warning' },
    { name: 'figure', path: 'figure', cell: textOrAbsent, meaning: 'with its unit, where it has one: 18 in' },
    { name: 'source', path: 'source', cell: text, meaning: 'whose advice or rule it is' },
  ],
  keyOf: caution => caution.code,
  wordsOf: caution => `caution ${caution.code}`,
})
