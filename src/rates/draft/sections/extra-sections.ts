import type { Extra, RateTable } from '../../../estimate/table/rate-table.ts'
import { perInWords } from '../../start/rate-words.ts'
import { choice, figure, textOrNone, tick } from '../entries.ts'
import { type Section, spanFields } from '../section.ts'
import { cautionTicks, names } from './shared-fields.ts'
import { listOfThings } from './things.ts'

const counted = choice(
  ['job', 'the job'],
  ['bed', 'the bed'],
  ['area', 'area'],
  ['edge', 'length of edge'],
  ['volume', 'volume laid'],
  ['lying', 'volume of old material taken out'],
)

/** The list of extras, and a form for each of them. */
export function extraSections(table: RateTable): Section[] {
  return [
    listOfThings({
      key: 'extras',
      list: 'extras',
      one: 'Extra',
      title: 'Extras: which, and in what order',
      adds: 'Work besides dressing, such as cutting an edge or weeding, priced with the rest.',
      table,
    }),
    ...table.extras.map((extra, index) => extraSection(extra, index, table)),
  ]
}

function extraSection(extra: Extra, index: number, table: RateTable): Section {
  const per = perInWords(extra.per, table.units)
  return {
    key: `extra.${extra.slug}`,
    title: extra.name.en,
    holds: `${extra.lower} to ${extra.upper} ${table.currency} ${per}${extra.offered ? '' : '; not shown to homeowners'}`,
    adds: 'Its names, rates, crew hours and the dump’s fee.',
    base: `extras.${index}`,
    under: true,
    parts: [
      {
        heading: 'What people read',
        fields: [
          ...names,
          {
            path: 'offered',
            label: 'Homeowners may ask for it',
            entry: tick,
            hint: 'Otherwise it is for whoever measures.',
          },
          {
            path: 'group',
            label: 'Group',
            entry: textOrNone,
            hint: 'Of extras of one group a bed gets one at most, as of light and heavy weeds. Small letters.',
          },
        ],
      },
      {
        heading: 'Price',
        fields: [
          { path: 'per', label: 'Counted by', entry: counted },
          ...spanFields('', 'Rate', { entry: figure, unit: '{money} for each' }),
        ],
      },
      {
        heading: 'Work',
        fields: [
          ...spanFields('crewHours', 'Crew hours', { entry: figure, unit: 'h for each' }),
          {
            path: 'fluffing',
            label: 'How much looser old material lies on the truck',
            entry: figure,
            unit: 'times',
            hint: '1.3 is three tenths more than in the bed; 1 for anything else.',
          },
          { path: 'dumpFee', label: 'Fee of the dump', entry: figure, unit: '{money} per {bulk}' },
        ],
      },
      { heading: 'Cautions', fields: [cautionTicks] },
    ],
  }
}
