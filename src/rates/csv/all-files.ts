import type { z } from 'zod'
import { rateFigures } from '../../estimate/table/rate-table.ts'
import type { CsvFile } from './csv-file.ts'
import { gridFile, valuesFile } from './keyed-file.ts'
import { listFile } from './list-file.ts'
import { packsFile, pricesFile } from './pack-files.ts'
import { ratesFile, sizesFile } from './rate-files.ts'
import { zoneFile } from './zone-files.ts'

/** Every file of rate tables with these figures. They are read in this order: what others are of comes before them. */
export function filesFor(figures: z.ZodObject): CsvFile[] {
  return [
    valuesFile(figures, 'settings.csv', 'Figures that come only once.'),
    listFile(figures, 'finishes', 'The materials, in the order homeowners see them.'),
    sizesFile(figures),
    ratesFile(figures),
    listFile(figures, 'extras', 'Other work, such as edging and weeding.'),
    packsFile(figures),
    pricesFile(figures),
    zoneFile(figures, {
      file: 'travel.csv',
      about: 'Where you work, and what you charge for travel there. Empty: anywhere, with no charge.',
      path: 'travel',
      group: 'zone',
      words: 'travel to',
    }),
    gridFile(figures, {
      file: 'measuring.csv',
      about: 'How far off people are when they measure.',
      key: 'way',
      words: 'measuring,',
    }),
    gridFile(figures, {
      file: 'lying.csv',
      about: 'What homeowners say about old mulch, as a depth.',
      key: 'lying',
      words: 'old mulch,',
    }),
    gridFile(figures, {
      file: 'planted.csv',
      about: 'How much of a bed plants take up, and how much they slow the work.',
      key: 'planted',
      words: 'planted',
    }),
    listFile(figures, 'carriers', 'What a trip carries: the truck’s bed, and a trailer if there is one.'),
    listFile(figures, 'people', 'Who works for you, and their wages. Empty: one wage for everybody.'),
    valuesFile(figures, 'tax.csv', 'Tax on prices. With no rows, there’s no tax.', 'tax'),
    zoneFile(figures, {
      file: 'tax-areas.csv',
      about: 'Areas where the tax rate isn’t the one in tax.csv.',
      path: 'tax.areas',
      group: 'area',
      words: 'tax in',
    }),
    listFile(figures, 'cautions', 'Warnings shown where they matter. One you leave out is never shown.'),
  ]
}

export const allFiles = filesFor(rateFigures)

/** The file that explains the others' columns; it isn't read. */
export const GUIDE = 'guide.csv'
