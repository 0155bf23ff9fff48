import type { BedTold, Told } from '../estimate/job/bed.ts'
import { MOST_BEDS, MOST_BEDS_OF_STAFF, readTold } from '../estimate/reading/read-beds.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { t } from '../language/catalogue.ts'
import { sortByStops } from './put-in-stops.ts'

/** Beds as somebody tells them on the phone, with the stops that they are at; or the line that can't be read, and why. */
export type SpokenBeds = { ok: true; told: Pick<Told, 'beds' | 'stops'> } | { ok: false; fault: string }

const ROUND = /\b(across|round|in diameter|diameter|circle)\b/i
const VOLUME = /\b(yards?|yds?|yd3|yd³|cy|cu|cubic|m3|m³)\b/i

/**
 * Reads one bed a line, "20 by 5", "3 of 12 x 4", "9 ft across", "300 square feet", or an amount, "6 yards": all of a
 * finish, as deep as usual, planted and covered as beds mostly are. No line at all is no bed. Stops are headings, as
 * `sortByStops` reads them.
 */
export function readSpokenBeds(text: string, finish: string, table: RateTable): SpokenBeds {
  const lines = text
    .split(/\n|;/)
    .map(line => line.trim())
    .filter(Boolean)
  const sorted = sortByStops(lines)
  if (!sorted.ok) return sorted
  const most = sorted.stops.length > 0 ? MOST_BEDS_OF_STAFF : MOST_BEDS
  if (sorted.beds.length > most) return { ok: false, fault: `Write ${most} beds at most.` }
  const known = new Map<string, BedTold>()
  const beds: BedTold[] = []
  for (const { line, stop } of sorted.beds) {
    const bed = known.get(line) ?? readLine(line, finish, table)
    if (typeof bed === 'string') return { ok: false, fault: bed }
    known.set(line, bed)
    beds.push({ ...bed, ...(stop !== undefined && { stop }) })
  }
  return { ok: true, told: { beds, ...(sorted.stops.length > 0 && { stops: sorted.stops }) } }
}

/** The bed of a line; or why it can't be read. */
function readLine(line: string, finish: string, table: RateTable): BedTold | string {
  const { count, words } = countedIn(line)
  const tries = spellingsOf(words).map(bed => ({ ...bed, ...asUsual(finish), count }))
  const readings = tries.map(bed => readTold(toldOf([bed]), table))
  const found = tries.find((_bed, index) => readings[index]!.ok)
  if (found) return found
  const [first] = readings
  const why =
    first && !first.ok && first.faults[0] ? t('en', first.faults[0].key, first.faults[0].params) : ''
  return `“${line.slice(0, 40)}”: ${why}`
}

/** Beds and nothing besides. */
export function toldOf(beds: BedTold[], postcode = ''): Told {
  return { beds, extras: [], postcode }
}

function countedIn(line: string): { count: string; words: string } {
  const [, before, of] = /^(\d{1,2})\s+of\s+(.+)$/i.exec(line) ?? []
  if (before && of) return { count: before, words: of }
  const [, first, alike] = /^(.+?)[,\s]+(\d{1,2})\s+(?:like this|like that|of them|alike)$/i.exec(line) ?? []
  return first && alike ? { count: alike, words: first } : { count: '1', words: line }
}

/** What the words may be, the likeliest first; the faults of that are told. */
function spellingsOf(words: string): Pick<BedTold, 'shape' | 'sizes'>[] {
  if (ROUND.test(words)) {
    const bare = words.replace(new RegExp(ROUND, 'gi'), ' ').trim()
    return [{ shape: 'circle', sizes: { diameter: bare } }]
  }
  const rectangle = { shape: 'rectangle', sizes: { length: words, width: '' } }
  const area = { shape: 'area', sizes: { area: words } }
  const volume = { shape: 'volume', sizes: { volume: words } }
  return VOLUME.test(words) && !/\b(by|x)\b|×/i.test(words) ? [volume, area] : [rectangle, area, volume]
}

function asUsual(finish: string): Omit<BedTold, 'shape' | 'sizes' | 'count'> {
  return { measuredBy: 'eye', planted: 'half', lying: 'unsure', finish, depth: '' }
}
