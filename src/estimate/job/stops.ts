/** How many stops one job may have. */
export const MOST_STOPS = 60
export const LONGEST_STOP_NAME = 80
export const LONGEST_STOP_NOTE = 500
export const LONGEST_STOP_SPOT = 200

/** Beds sorted by the stops of a job; every bed is at one of them where there are any. */
export interface Sorted<Stop, Bed> {
  stops: Stop[]
  beds: Bed[]
}

interface Named {
  id?: number
  name: string
}

interface At {
  stop?: number
}

/** The beds of each stop with their places among all beds; of a job without stops nothing. */
export function bedsByStop<Stop, Bed extends At>({
  stops = [],
  beds,
}: {
  stops?: readonly Stop[]
  beds: readonly Bed[]
}): { stop: Stop; beds: { bed: Bed; index: number }[] }[] {
  const placed = beds.map((bed, index) => ({ bed, index }))
  return stops.map((stop, at) => ({ stop, beds: placed.filter(({ bed }) => bed.stop === at) }))
}

/**
 * The same with stops in another order, each named by the place that it has now: one left out goes with its beds, one
 * named again comes as a copy of a name of its own. `order[n]` is what becomes the nth; the beds follow.
 */
export function rearranged<Stop extends Named, Bed extends At>(
  { stops, beds }: Sorted<Stop, Bed>,
  order: readonly number[],
  copyOf: (bed: Bed) => Bed,
): Sorted<Stop, Bed> {
  const taken = new Set(stops.map(({ name }) => folded(name)))
  const seen = new Set<number>()
  const made: Sorted<Stop, Bed> = { stops: [], beds: [] }
  for (const from of order) {
    const stop = stops[from]
    if (!stop) continue
    const isCopy = seen.has(from)
    seen.add(from)
    const at = made.stops.length
    made.stops.push(
      isCopy ? named(stop, nameAfter(made.stops.at(-1)?.name ?? stop.name, stop.name, taken)) : stop,
    )
    for (const bed of beds)
      if (bed.stop === from) made.beds.push({ ...(isCopy ? copyOf(bed) : bed), stop: at })
  }
  return made
}

/** The order in which a stop is followed by so many copies of it. */
export function withCopies(stops: number, of: number, times: number): number[] {
  return inOrder(stops).flatMap(at => (at === of ? Array.from({ length: times + 1 }, () => at) : [at]))
}

/** The order in which a stop changes places with the one `by` further on; as it was where there is none. */
export function withMoved(stops: number, from: number, by: 1 | -1): number[] {
  const order = inOrder(stops)
  const to = from + by
  if (from in order && to in order) [order[from], order[to]] = [order[to]!, order[from]!]
  return order
}

/** Names alike but for capitals and spaces are one name. */
export function folded(name: string): string {
  return name.trim().replace(/\s+/g, ' ').toLocaleLowerCase('en')
}

/** The next name that isn't taken, and takes it: 'Entrance 4' after 'Entrance 3', 'Gate 2' after 'Gate'. */
function nameAfter(last: string, first: string, taken: Set<string>): string {
  const [, stem = '', number] = /^(.*?)(\d{1,6})?\s*$/.exec(sameStem(last, first) ? last : first) ?? []
  const base = number === undefined ? `${stem.trim()} ` : stem
  for (let next = number === undefined ? 2 : Number.parseInt(number, 10) + 1; ; next++) {
    const name = `${base.slice(0, LONGEST_STOP_NAME - 7)}${next}`
    if (taken.has(folded(name))) continue
    taken.add(folded(name))
    return name
  }
}

function sameStem(one: string, other: string): boolean {
  const stemOf = (name: string) => folded(name.replace(/\s*\d+\s*$/, ''))
  return stemOf(one) === stemOf(other)
}

function named<Stop extends Named>({ id: _, ...stop }: Stop, name: string): Stop {
  return { ...stop, name } as Stop
}

function inOrder(stops: number): number[] {
  return Array.from({ length: stops }, (_, at) => at)
}
