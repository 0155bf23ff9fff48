import type { RateTable } from '../../estimate/table/rate-table.ts'
import { unitSystem } from '../../estimate/units/units.ts'

/** A column's unit in the table's own units and currency: '{money} per {bulk}' becomes 'USD per yd3'. */
export function unitOf(template: string, table: Pick<RateTable, 'units' | 'currency'>): string {
  const { length, depth, area, volume, bulk, weight } = unitSystem(table.units)
  const ton = table.units === 'us' ? 'short ton' : 'tonne'
  const units: Record<string, string> = {
    money: table.currency,
    length,
    depth,
    area,
    volume,
    bulk,
    weight,
    ton,
  }
  return template.replace(/\{(\w+)\}/g, (_, name: string) => units[name]!)
}
