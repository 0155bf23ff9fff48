import { shapeOf } from '../../../shapes/all-shapes.ts'
import { valuesOf } from '../../../shapes/sizes.ts'
import type { Measuring, RateTable } from '../../../table/rate-table.ts'
import type { Bed } from '../../bed.ts'
import { cutOutArea } from '../../cut-outs.ts'
import { bedQuantities } from '../../quantities.ts'
import { edgeElasticities, bedErrors as errorsOf2, wayOfSize } from '../2/errors.ts'
import type { BedErrors } from '../method.ts'

/** The errors of a bed as the second method has them, and what those of its volume and of its edge have in common. */
export function bedErrors(bed: Bed, table: RateTable, by: Measuring | null = null): BedErrors {
  let known: number | undefined
  // Only where something is priced by the edge is it looked for.
  const get = () => {
    known ??= ownBoth(bed, table, by)
    return known
  }
  return Object.defineProperty(errorsOf2(bed, table, by), 'ownBoth', { get, enumerable: true })
}

/**
 * The covariance of the own errors: Σeᵢ·Eᵢ·σᵢ²(1−ρᵢ) over the sizes, of area and edge with their elasticities. Form, plants
 * and what is cut out move the area alone.
 */
function ownBoth(bed: Bed, table: RateTable, by: Measuring | null): number {
  const { area, edge } = bedQuantities(bed, table)
  if (edge === null || !edge.gt(0) || !area.gt(0)) return 0
  const told = valuesOf(bed.sizes)
  const [ofArea, ofEdge] = [shapeOf(bed.shape).elasticities(told), edgeElasticities(bed.shape, told)]
  let both = 0
  for (const [index, [name, size]] of Object.entries(bed.sizes).entries()) {
    const { sigma, rho } = wayOfSize(size, name === 'area' ? 2 : 1, bed, table, by)
    both += ofArea[index]! * ofEdge[index]! * sigma ** 2 * (1 - rho)
  }
  const outline = area.plus(cutOutArea(bed.cutOuts)).div(area)
  const whole = edge.plus(bed.noEdge).div(edge)
  return outline.times(whole).toNumber() * both
}
