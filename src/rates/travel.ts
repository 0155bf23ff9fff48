import type { RateTable } from '../estimate/table/rate-table.ts'
import type { FormFields } from '../http/form-fields.ts'

const MOST_ZONES = 10
const MOST_POSTCODES = 500
const POSTCODE = /^[A-Z0-9][A-Z0-9 -]{0,11}\*?$/

/** A zone as the handful tells it. */
export type ZoneTold = Pick<RateTable['travel'][number], 'postcodes' | 'charge'>

/** Zones as told with how far they are: as the table's own, of which they have a postcode. */
export function withDrives(zones: ZoneTold[], known: RateTable['travel']): RateTable['travel'] {
  return zones.map(zone => {
    const before = known.find(({ postcodes }) => postcodes.some(one => zone.postcodes.includes(one)))
    return { ...zone, drive: before?.drive ?? null, driven: before?.driven ?? null }
  })
}

/** Reads the zones `travel.0.postcodes`, `travel.0.charge` and so on; none means anywhere, without a charge. */
export function readTravel(fields: FormFields): ZoneTold[] {
  const zones: ZoneTold[] = []
  const seen = new Set<string>()
  for (let index = 0; index < MOST_ZONES; index++) {
    const zone = fields.group(`travel.${index}`)
    const postcodes = readPostcodes(zone, seen)
    const charge = zone.figure('charge', { places: 2 }) ?? '0'
    if (postcodes.length > 0) zones.push({ postcodes, charge })
    else if (Number(charge) > 0)
      zone.fault('postcodes', 'List the ZIP codes or postcodes this charge is for.')
  }
  return zones
}

// Spaces part ZIPs, but belong into a postcode such as 'SW1A 2AA' or '114 55'.
function apart(part: string): string[] {
  const words = part.trim().split(/\s+/)
  return words.every(word => /^(\d{4,}|\d+\*)$/.test(word)) ? words : [part]
}

function readPostcodes(zone: FormFields, seen: Set<string>): string[] {
  const written = zone
    .text('postcodes')
    .split(/[,;\n\r]+/)
    .flatMap(apart)
    .map(part => part.trim().toUpperCase().replace(/\s+/g, ' '))
    .filter(Boolean)
  const odd = written.find(postcode => !POSTCODE.test(postcode))
  if (odd !== undefined) zone.fault('postcodes', `“${odd.slice(0, 20)}” isn’t a ZIP code or postcode.`)
  else if (written.length > MOST_POSTCODES)
    zone.fault('postcodes', `List at most ${MOST_POSTCODES}: 787* covers all that start with 787.`)
  const fresh = [...new Set(written)].filter(postcode => !seen.has(postcode))
  for (const postcode of fresh) seen.add(postcode)
  return fresh
}
