import type { RateTable } from '../estimate/table/rate-table.ts'

/** A key beside a size: what it shows, and what it puts in. */
export interface SizeKey {
  shows: string
  puts: string
  says: 'feet' | 'inches' | 'meters' | 'centimeters' | 'by'
}

const BY: SizeKey = { shows: '×', puts: ' x ', says: 'by' }

/** What a phone's keypad of digits lacks, by the units of the business. */
export const SIZE_KEYS: Record<RateTable['units'], SizeKey[]> = {
  us: [{ shows: '′', puts: "'", says: 'feet' }, { shows: '″', puts: '"', says: 'inches' }, BY],
  metric: [{ shows: 'm', puts: ' m', says: 'meters' }, { shows: 'cm', puts: ' cm', says: 'centimeters' }, BY],
}
