import { workOutBallpark } from '../../src/estimate/ballpark/ballpark.ts'
import type { BedTold } from '../../src/estimate/job/bed.ts'
import { jobOf, testTable } from '../estimate/jobs.ts'

/** What a bed comes to, as printed sources give it: in place, in feet and cubic yards or in metres. */
export function worked(bed: Partial<BedTold>, units: 'us' | 'metric' = 'us') {
  const table = testTable({}, units)
  const { area, inPlace, beds } = workOutBallpark(jobOf([bed], table), table)
  return {
    area: area.value,
    edge: beds[0]!.edge?.value,
    inPlace: inPlace.value,
    bulk: Number(inPlace.value) / (units === 'us' ? 27 : 1),
  }
}

/** Printed answers use rounded factors (depth as .33 or .167, pi as 3.14): within 1.5 % of the printed figure. */
export function nearPrint(figure: number, printed: number): boolean {
  return Math.abs(figure / printed - 1) <= 0.015
}
