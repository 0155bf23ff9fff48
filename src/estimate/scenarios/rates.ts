/** A rate at the lower end, and how much higher it is at the upper. */
export interface Rate {
  lower: number
  gap: number
}

export function rateOf({ lower, upper }: { lower: string; upper: string }, times = 1): Rate {
  return { lower: Number(lower) * times, gap: (Number(upper) - Number(lower)) * times }
}

/** Adds to every price what its amount comes to where the rate of its scenario stands. */
export function addAtRate(
  prices: Float64Array,
  amounts: Float64Array,
  { lower, gap }: Rate,
  stands: Float64Array,
): void {
  for (let point = 0; point < stands.length; point++)
    prices[point]! += amounts[point]! * (lower + gap * stands[point]!)
}

/** What so much comes to where the rate of each scenario stands. */
export function atRates({ lower, gap }: Rate, stands: Float64Array): Float64Array {
  const amounts = new Float64Array(stands.length)
  for (let point = 0; point < stands.length; point++) amounts[point] = lower + gap * stands[point]!
  return amounts
}
