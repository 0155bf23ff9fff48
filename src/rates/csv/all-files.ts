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
    valuesFile(figures, 'settings.csv', 'The figures of which there is one each.'),
    listFile(figures, 'finishes', 'What beds are dressed with, in the order in which it is shown.'),
    sizesFile(figures),
    ratesFile(figures),
    listFile(figures, 'extras', 'Work besides dressing.'),
    packsFile(figures),
    pricesFile(figures),
    zoneFile(figures, {
      file: 'travel.csv',
      about: 'Where you go, and what travel is charged there. Empty: anywhere, without a charge.',
      path: 'travel',
      group: 'zone',
      words: 'travel to',
    }),
    gridFile(figures, {
      file: 'measuring.csv',
      about: 'How far people are out when they measure.',
      key: 'way',
      words: 'measuring,',
    }),
    gridFile(figures, {
      file: 'lying.csv',
      about: 'What homeowners say lies in the bed, as a depth.',
      key: 'lying',
      words: 'lying there,',
    }),
    gridFile(figures, {
      file: 'planted.csv',
      about: 'What plants in the bed take up, and how much slower they make the work.',
      key: 'planted',
      words: 'planted',
    }),
    listFile(figures, 'carriers', 'What a trip carries: the truck’s bed, and a trailer where there is one.'),
    valuesFile(figures, 'tax.csv', 'Tax on prices. Without any row there is no tax.', 'tax'),
    zoneFile(figures, {
      file: 'tax-areas.csv',
      about: 'Where the tax has another rate than that of tax.csv.',
      path: 'tax.areas',
      group: 'area',
      words: 'tax in',
    }),
    listFile(
      figures,
      'cautions',
      'The warnings that are shown where they matter; one left out is never shown.',
    ),
  ]
}

export const allFiles = filesFor(rateFigures)

/** The file that explains the others' columns; it isn't read. */
export const GUIDE = 'guide.csv'
