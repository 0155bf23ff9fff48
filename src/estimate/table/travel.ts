import type { RateTable } from './rate-table.ts'

/** What coming to a ZIP or postcode costs: '0' when none is given or none is listed; null when it isn't served. */
export function travelCharge(postcode: string, table: RateTable): string | null {
  if (plainPostcode(postcode) === '' || table.travel.length === 0) return '0'
  return zoneOf(postcode, table)?.charge ?? null
}

/** The zone that a ZIP or postcode is in; undefined where none is listed for it. */
export function zoneOf(postcode: string, { travel }: Pick<RateTable, 'travel'>) {
  const asked = plainPostcode(postcode)
  return asked === '' ? undefined : travel.find(zone => zone.postcodes.some(listed => covers(listed, asked)))
}

/** Whether a listed ZIP or postcode, or the beginning of some (787*), stands for the one asked for. */
export function covers(listed: string, asked: string): boolean {
  if (listed.trim().endsWith('*')) return asked.startsWith(plainPostcode(listed.replaceAll('*', '')))
  const [whole] = asked.match(/^\d{5}(?=\d{4}$)/) ?? [asked]
  return asked === plainPostcode(listed) || whole === plainPostcode(listed)
}

/** Without spaces and hyphens, in capitals. */
export function plainPostcode(text: string): string {
  return text.replace(/[\s-]/g, '').toUpperCase()
}
