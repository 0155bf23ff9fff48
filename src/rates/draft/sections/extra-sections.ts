import type { z } from 'zod'
import type { Extra, RateTable } from '../../../estimate/table/rate-table.ts'
import { ownRows, partAt } from '../../../estimate/table/rows.ts'
import { startOf } from '../../../estimate/table/values.ts'
import { rangeInWords } from '../../../language/money-in-words.ts'
import { perInWords } from '../../start/rate-words.ts'
import { blocksOf, foldedBlocks } from '../figure-fields.ts'
import type { Section } from '../section.ts'
import { withOwnCautions } from './caution-section.ts'
import { listOfThings } from './things.ts'

/** The list of extras, and a form for each of them. */
export function extraSections(table: RateTable, figures: z.ZodObject): Section[] {
  return [
    listOfThings({
      key: 'extras',
      list: 'extras',
      one: 'Extra',
      title: 'Extras: which ones, and in what order',
      adds: 'Other work, such as cutting an edge or weeding, priced with the rest.',
      table,
      entry: partAt(figures, 'extras.*'),
    }),
    ...table.extras.map((extra, index) => extraSection(extra, index, table, figures)),
  ]
}

const TAXED_ADDS = {
  'Sales tax': 'Tax it differently from other extras, or show its material and labor on two lines.',
}

function extraSection(extra: Extra, index: number, table: RateTable, figures: z.ZodObject): Section {
  const per = perInWords(extra.per, table.units)
  const entry = partAt(figures, 'extras.*')
  return {
    key: `extra.${extra.slug}`,
    title: extra.name.en,
    holds: `${extra.pricedBy === 'cost' ? 'Priced from what it costs you' : `${rangeInWords(extra.lower, extra.upper, table.currency)} ${per}`}${extra.offered ? '' : '; not shown to homeowners'}`,
    adds: 'Its names, price, material, labor hours, and dump fee.',
    base: `extras.${index}`,
    under: true,
    parts: withOwnCautions(
      foldedBlocks(blocksOf(ownRows(entry)), TAXED_ADDS, startOf(entry, table.units)),
      table,
    ),
  }
}
