import type { BedTold, Told } from '../estimate/job/bed.ts'
import { MOST_BEDS, readTold } from '../estimate/reading/read-beds.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { t } from '../language/catalogue.ts'

/** Beds as somebody tells them on the phone; or the line that can't be read, and why. */
export type SpokenBeds = { ok: true; beds: BedTold[] } | { ok: false; fault: string }

const ROUND = /\b(across|round|in diameter|diameter|circle)\b/i
const VOLUME = /\b(yards?|yds?|yd3|yd³|cy|cu|cubic|m3|m³)\b/i

/**
 * Reads one bed a line, "20 by 5", "3 of 12 x 4", "9 ft across", "300 square feet", or an amount, "6 yards": all of a
 * finish, as deep as usual, planted and covered as beds mostly are. No line at all is no bed.
 */
export function readSpokenBeds(text: string, finish: string, table: RateTable): SpokenBeds {
  const lines = text
    .split(/\n|;/)
    .map(line => line.trim())
    .filter(Boolean)
  if (lines.length > MOST_BEDS) return { ok: false, fault: `Write ${MOST_BEDS} beds at most.` }
  const beds: BedTold[] = []
  for (const line of lines) {
    const { count, words } = countedIn(line)
    const tries = spellingsOf(words).map(bed => ({ ...bed, ...asUsual(finish), count }))
    const readings = tries.map(bed => readTold(toldOf([bed]), table))
    const found = readings.findIndex(({ ok }) => ok)
    if (found < 0) {
      const [first] = readings
      const why =
        first && !first.ok && first.faults[0] ? t('en', first.faults[0].key, first.faults[0].params) : ''
      return { ok: false, fault: `“${line.slice(0, 40)}”: ${why}` }
    }
    beds.push(tries[found]!)
  }
  return { ok: true, beds }
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
