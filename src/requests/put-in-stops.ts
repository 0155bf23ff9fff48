import type { StopTold } from '../estimate/job/bed.ts'
import {
  folded,
  LONGEST_STOP_NAME,
  LONGEST_STOP_NOTE,
  MOST_STOPS,
  type Sorted,
} from '../estimate/job/stops.ts'

/** Lines sorted by the stops that they are at, as spoken; or why they can't be. */
export type SpokenStops =
  | ({ ok: true } & Sorted<StopTold, { line: string; stop?: number }>)
  | { ok: false; fault: string }

/** Heads a stop, or several alike: the bed lines that follow are at each of them. */
interface Heading {
  stops: StopTold[]
  lines: string[]
}

/**
 * Sorts lines of beds by the stops that they stand under: “North entrance: 20 by 5”, or the name alone on a line and the beds on those
 * that follow. “Entrance 1 to 30:” is thirty of them alike, “same” the beds of the stop before, “same as Entrance 3” those of
 * another; in parentheses behind a name stands a note for the crew. Without any such line there are no stops.
 */
export function sortByStops(lines: readonly string[]): SpokenStops {
  const headings: Heading[] = []
  const loose: string[] = []
  for (const line of lines) {
    const heading = headingIn(line)
    if (heading) headings.push(heading)
    const rest = heading ? heading.lines.shift()! : line
    if (rest !== '') (headings.at(-1)?.lines ?? loose).push(rest)
  }
  if (headings.length === 0) return { ok: true, stops: [], beds: loose.map(line => ({ line })) }
  if (loose.length > 0)
    return fault(`“${loose[0]!.slice(0, 40)}”: put it under a stop, such as “North entrance:”.`)
  return beneath(headings)
}

function beneath(headings: Heading[]): SpokenStops {
  const stops = headings.flatMap(heading => heading.stops)
  if (stops.length > MOST_STOPS) return fault(`Write ${MOST_STOPS} stops at most.`)
  const linesOf = new Map<string, string[]>()
  const beds: { line: string; stop: number }[] = []
  let before: string[] = []
  for (const heading of headings) {
    const [first] = heading.stops
    const lines = likeOf(heading.lines, before, linesOf)
    if (lines.length === 0) return fault(`“${first!.name}”: write its beds.`)
    for (const { name } of heading.stops) {
      if (linesOf.has(folded(name))) return fault(`“${name}”: two stops have that name.`)
      if (name.length > LONGEST_STOP_NAME) return fault(`“${name.slice(0, 40)}…”: that name is too long.`)
      for (const line of lines) beds.push({ line, stop: linesOf.size })
      linesOf.set(folded(name), lines)
    }
    before = lines
  }
  return { ok: true, stops, beds }
}

function likeOf(lines: string[], before: string[], linesOf: Map<string, string[]>): string[] {
  return lines.flatMap(line => {
    const [same, , name] = /^same(\s+as\s+(.+))?$/i.exec(line) ?? []
    if (same === undefined) return [line]
    return name === undefined ? before : (linesOf.get(folded(name)) ?? [line])
  })
}

/** A line that begins with a name and a colon; the first of its lines is what stands behind that, '' for nothing. */
function headingIn(line: string): Heading | null {
  const [said = '', ...rest] = line.split(':')
  if (rest.length === 0 || !/\p{L}/u.test(said)) return null
  const [name = '', note = ''] = said.trim().replace(/\)$/, '').split('(')
  const stopOf = (one: string): StopTold => ({
    name: one.trim(),
    note: note.trim().slice(0, LONGEST_STOP_NOTE),
    spot: '',
  })
  return { stops: namesIn(name.trim()).map(stopOf), lines: [rest.join(':').trim()] }
}

function namesIn(name: string): string[] {
  if (name.length > LONGEST_STOP_NAME) return [name]
  const [, stem = '', first, last] = /^(.*?)(\d{1,4})\s*(?:-|–|to|through)\s*(\d{1,4})$/is.exec(name) ?? []
  const [from, until] = [Number(first), Number(last)]
  if (stem.trim() === '' || !(until > from)) return [name]
  const count = Math.min(until - from, MOST_STOPS) + 1
  return Array.from({ length: count }, (_, at) => `${stem}${from + at}`)
}

function fault(words: string): SpokenStops {
  return { ok: false, fault: words }
}
