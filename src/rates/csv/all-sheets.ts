import { carriersSheet, cautionsSheet } from './carrier-sheets.ts'
import { extrasSheet } from './extra-sheets.ts'
import { finishesSheet } from './finish-sheets.ts'
import { lyingSheet, measuringSheet, plantedSheet } from './measure-sheets.ts'
import { packsSheet, pricesSheet } from './pack-sheets.ts'
import { ratesSheet, sizesSheet } from './rate-sheets.ts'
import { settingsSheet } from './settings-sheet.ts'
import type { Sheet } from './sheet.ts'
import { taxSheet } from './tax-sheet.ts'
import { taxAreasSheet, travelSheet } from './zone-sheets.ts'

/** Every file of a rate table. They are read in this order: what others are of comes before them. */
export const allSheets: Sheet[] = [
  settingsSheet,
  finishesSheet,
  sizesSheet,
  ratesSheet,
  extrasSheet,
  packsSheet,
  pricesSheet,
  travelSheet,
  measuringSheet,
  lyingSheet,
  plantedSheet,
  carriersSheet,
  taxSheet,
  taxAreasSheet,
  cautionsSheet,
]

/** The file that explains the others' columns; it isn't read. */
export const GUIDE = 'guide.csv'
