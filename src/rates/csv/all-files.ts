import { carriersFile, cautionsFile } from './carrier-files.ts'
import type { CsvFile } from './csv-file.ts'
import { extrasFile } from './extra-files.ts'
import { finishesFile } from './finish-files.ts'
import { lyingFile, measuringFile, plantedFile } from './measure-files.ts'
import { packsFile, pricesFile } from './pack-files.ts'
import { ratesFile, sizesFile } from './rate-files.ts'
import { settingsFile } from './settings-file.ts'
import { taxFile } from './tax-file.ts'
import { taxAreasFile, travelFile } from './zone-files.ts'

/** Every file of a rate table. They are read in this order: what others are of comes before them. */
export const allFiles: CsvFile[] = [
  settingsFile,
  finishesFile,
  sizesFile,
  ratesFile,
  extrasFile,
  packsFile,
  pricesFile,
  travelFile,
  measuringFile,
  lyingFile,
  plantedFile,
  carriersFile,
  taxFile,
  taxAreasFile,
  cautionsFile,
]

/** The file that explains the others' columns; it isn't read. */
export const GUIDE = 'guide.csv'
