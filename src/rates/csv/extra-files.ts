import { figure, word, wordOrNone, yesOrNo } from './cells.ts'
import { named, pinnedAndCautions } from './finish-files.ts'
import { listFile } from './list-file.ts'
import type { Field } from './rows.ts'

const fields: Field[] = [
  ...named,
  {
    name: 'per',
    path: 'per',
    cell: word,
    meaning: 'what it is counted by: job, bed, area, edge, volume, or lying (old material taken out)',
  },
  { name: 'lower', path: 'lower', cell: figure, unit: '{money} for each', meaning: 'the lower rate' },
  { name: 'upper', path: 'upper', cell: figure, unit: '{money} for each', meaning: 'the upper rate' },
  {
    name: 'group',
    path: 'group',
    cell: wordOrNone,
    meaning: 'of extras of one group a bed gets one at most; empty: of none',
  },
  {
    name: 'offered',
    path: 'offered',
    cell: yesOrNo,
    meaning: 'whether homeowners may ask for it: yes or no',
  },
  {
    name: 'crew hours lower',
    path: 'crewHours.lower',
    cell: figure,
    unit: 'crew hours for each',
    meaning: 'of one person',
  },
  {
    name: 'crew hours upper',
    path: 'crewHours.upper',
    cell: figure,
    unit: 'crew hours for each',
    meaning: 'of one person',
  },
  pinnedAndCautions.pinned,
  {
    name: 'fluffing',
    path: 'fluffing',
    cell: figure,
    unit: 'times',
    meaning: 'how much looser old material lies on the truck than in the bed',
  },
  {
    name: 'dump fee',
    path: 'dumpFee',
    cell: figure,
    unit: '{money} per {bulk}',
    meaning: 'for what is brought to the dump',
  },
  pinnedAndCautions.cautions,
]

export const extrasFile = listFile({
  file: 'extras.csv',
  about: 'Work besides dressing.',
  list: 'extras',
  fields,
  filledLater: ['packs'],
  keyOf: extra => extra.slug,
  wordsOf: extra => extra.name.en,
})
