import { taxedKinds } from '../../estimate/table/tax.ts'
import { figure, text, word, yesOrNo } from './cells.ts'
import { keyedFile } from './keyed-file.ts'
import { nameAndValue, setting } from './settings-file.ts'

const works = [
  ['upkeep', 'upkeep of beds'],
  ['new', 'new work'],
] as const

export const taxFile = keyedFile({
  file: 'tax.csv',
  about: 'Tax on prices. Without any row there is no tax.',
  columns: nameAndValue,
  wordsOf: key => key,
  part: 'tax',
  rows: [
    setting('tax', 'tax.name.en', '', 'what it is called, in English', text),
    setting('tax in Spanish', 'tax.name.es', '', 'what it is called, in Spanish', text),
    setting('prices', 'tax.prices', '', 'without: it is added to them; with: they have it in them', word),
    setting('tax rate', 'tax.rate', 'share', '0.0825 is 8.25 %; tax-areas.csv may have others', figure),
    ...works.flatMap(([work, inWords]) =>
      taxedKinds.map(kind =>
        setting(
          `taxed in ${inWords}: ${kind}`,
          `tax.taxed.${work}.${kind}`,
          '',
          'whether these lines are taxed: yes or no',
          yesOrNo,
        ),
      ),
    ),
    setting('tax rounded', 'tax.rounded', '', 'line: of each line; bill: of the whole', word),
    setting('tax in ranges', 'tax.inRanges', '', 'whether ranges have it in them: yes or no', yesOrNo),
    setting('tax on purchases', 'tax.onPurchases', 'share', 'put on what is bought', figure),
    setting(
      'tax on purchases given back',
      'tax.purchasesGivenBack',
      '',
      'yes or no; no: it is a cost',
      yesOrNo,
    ),
  ],
})
