/** What a trip costs at least and at most, in money. */
export interface TripCost {
  least: number
  most: number
}

/**
 * Which purchases may cost least where trips needn't be whole and each costs between so much and so much, by their places in
 * a row of figures of so many for each: goods, and what is used up of several things. For each of these things it says from where to where of
 * itself these places stand, and then tells them, the cheapest trip's first.
 */
export function leanestOf(figures: Float64Array, width: number, trip: TripCost): Uint16Array {
  const things = width - 1
  const places: number[] = []
  const starts = Array.from({ length: things }, (_, thing) => {
    const from = places.length
    places.push(...hull(figures, width, thing + 1, trip))
    return from
  })
  return Uint16Array.from([...starts, places.length].map(start => start + things + 1).concat(places))
}

// Each next one is the first that gets cheaper than the last as trips get dearer.
function hull(figures: Float64Array, width: number, use: number, { least, most }: TripCost): number[] {
  let last = 0
  const costAt = (at: number) => figures[at]! + least * figures[at + use]!
  for (let at = width; at < figures.length; at += width) if (costAt(at) < costAt(last)) last = at
  const found = [last]
  for (;;) {
    let [next, turn] = [-1, most]
    for (let at = 0; at < figures.length; at += width) {
      const saved = figures[last + use]! - figures[at + use]!
      if (saved <= 0) continue
      const from = (figures[at]! - figures[last]!) / saved
      if (from < turn || (from === turn && next >= 0 && figures[at + use]! < figures[next + use]!))
        [next, turn] = [at, from]
    }
    if (next < 0) return found
    found.push(next)
    last = next
  }
}
