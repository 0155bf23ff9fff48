import { unitSystem } from './units.ts'

/** What bulk is sold and priced by, in words: 'cubic yard' or 'cubic meter'. */
export function bulkName({ units }: { units: 'us' | 'metric' }): string {
  return units === 'us' ? 'cubic yard' : 'cubic meter'
}

/** A unit as people write it: 'USD per yd3' becomes 'USD per yd³'. */
export function withSigns(unit: string): string {
  return unit.replace(/\b(yd|ft|m)3\b/g, '$1³').replace(/\b(ft|m)2\b/g, '$1²')
}

/** A unit in the table's own units and currency: '{money} per {bulk}' becomes 'USD per yd3'; other braces stay. */
export function unitOf(template: string, table: { units: 'us' | 'metric'; currency: string }): string {
  const { length, depth, area, volume, bulk, weight } = unitSystem(table.units)
  const ton = table.units === 'us' ? 'short ton' : 'tonne'
  const units: Record<string, string> = {
    money: table.currency,
    length,
    depth,
    area,
    volume,
    bulk,
    sold: bulk,
    bulkName: bulkName(table),
    weight,
    ton,
    far: table.units === 'us' ? 'mi' : 'km',
    farName: table.units === 'us' ? 'mile' : 'kilometer',
  }
  return template.replace(/\{(\w+)\}/g, (whole, name: string) => units[name] ?? whole)
}
