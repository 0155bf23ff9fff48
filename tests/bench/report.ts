/** A line with what was measured beside its target, and whether it is met. */
export function line(what: string, measured: string, target: string, met: boolean): void {
  console.log(`  ${what.padEnd(52)} ${measured.padStart(24)}   ${target.padEnd(22)} ${met ? 'OK' : 'UNDER'}`)
}

/** A ratio of several rounds: the median, and from where to where they went. */
export function ratioLine(what: string, ratios: number[], target: number): void {
  const [least, middle, most] = [Math.min(...ratios), median(ratios), Math.max(...ratios)]
  const measured = `${middle.toFixed(3)} (${least.toFixed(3)} to ${most.toFixed(3)})`
  line(what, measured, `at least ${target}`, middle >= target)
}

export function median(values: number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)]!
}
