import { type Decimal, sumOf, zero } from '../../lib/decimal.ts'
import { shapeOf } from '../shapes/all-shapes.ts'
import { valuesOf } from '../shapes/sizes.ts'
import type { CutOut } from './bed.ts'

/** The area that cut-outs take off their bed, in ft²|m². */
export function cutOutArea(cutOuts: CutOut[]): Decimal {
  return sumOf(
    cutOuts.map(({ shape, sizes, count }) => shapeOf(shape).area(valuesOf(sizes), zero).times(count)),
  )
}
