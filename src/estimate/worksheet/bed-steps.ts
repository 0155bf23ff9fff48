import { Decimal, one } from '../../lib/decimal.ts'
import type { Bed } from '../job/bed.ts'
import { cutOutArea } from '../job/cut-outs.ts'
import { addedDepth, type BedQuantities, thinnestOf, toldSizes } from '../job/quantities.ts'
import { gateOf, slopeOf, slownessOf } from '../job/slowness.ts'
import { shapeOf } from '../shapes/all-shapes.ts'
import { valuesOf } from '../shapes/sizes.ts'
import type { RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'
import type { Figures } from './figures.ts'

/** The steps of one entry of beds: its area, the depth to add, its volume, its edge, and what slows the laying. */
export function bedSteps(bed: Bed, figures: BedQuantities, table: RateTable, f: Figures): string[] {
  const told = bed.sizes.volume
  return [
    areaStep(bed, table, f),
    ...cutOutSteps(bed, figures, f),
    ...(told ? [] : [depthStep(bed, table, f)]),
    volumeStep(bed, figures, table, f),
    ...layerSteps(bed, figures, table, f),
    ...edgeStep(bed, figures, f),
    ...slownessStep(bed, table, f),
  ]
}

function areaStep(bed: Bed, table: RateTable, f: Figures): string {
  const sizes = toldSizes(bed)
  const shape = shapeOf(bed.shape)
  const area = shape.area(sizes, bed.depth.div(unitSystem(table.units).depthsPerLength))
  return `Area: ${shape.formula(sizes, f)} = ${f.area(area)}`
}

function cutOutSteps({ cutOuts }: Bed, { area }: BedQuantities, f: Figures): string[] {
  if (cutOuts.length === 0) return []
  const parts = cutOuts.map(({ shape, sizes, count }) => {
    const formula = shape === 'area' ? f.area(sizes.area!.value) : shapeOf(shape).formula(valuesOf(sizes), f)
    return count > 1 ? `${count} × (${formula})` : formula
  })
  return [`Cut out: ${parts.join(' + ')} = ${f.area(cutOutArea(cutOuts))}, which leaves ${f.area(area)}`]
}

function depthStep(bed: Bed, table: RateTable, f: Figures): string {
  const added = f.depth(addedDepth(bed, table))
  if (bed.work !== 'new' && bed.layers.length > 0)
    return `Depth to add: the full ${added}, because it lies on other layers`
  if (bed.work === 'new') return `Depth to add: the full ${added}, because no old mulch stays`
  const lying = Decimal.max(0, bed.lying.m)
  if (lying.isZero()) return `Depth to add: ${added}`
  const least = thinnestOf(bed.finish, table)
  const left = bed.depth.minus(lying)
  const floor = left.lt(least) ? `, but never less than ${f.depth(least)}` : ''
  return `Depth to add: ${f.depth(bed.depth)} − ${f.depth(lying)} of old mulch = ${f.depth(left)}${floor}`
}

function volumeStep(bed: Bed, { area, inPlace }: BedQuantities, table: RateTable, f: Figures): string {
  const alike = bed.count > 1 ? `; × ${bed.count} alike = ${f.volume(inPlace.times(bed.count))}` : ''
  if (bed.sizes.volume) return `Volume in place: as given, ${f.volume(inPlace)}${alike}`
  const open = openStep(bed, table, f)
  return `Volume in place: ${f.area(area)} × ${f.depth(addedDepth(bed, table))}${f.perLength}${open} = ${f.volume(inPlace)}${alike}`
}

function layerSteps(bed: Bed, { area, layers }: BedQuantities, table: RateTable, f: Figures): string[] {
  const { volume } = bed.sizes
  const open = openStep(bed, table, f)
  const volumes = layers.map(({ finish, depth, inPlace }) => {
    const over = volume
      ? `${f.volume(volume.value)} × ${f.depth(depth)} ÷ ${f.depth(bed.depth)}`
      : `${f.area(area)} × ${f.depth(depth)}${f.perLength}${open}`
    const alike = bed.count > 1 ? `; × ${bed.count} alike = ${f.volume(inPlace.times(bed.count))}` : ''
    return `${finish.name.en} beneath: ${over} = ${f.volume(inPlace)}${alike}`
  })
  const sheets = bed.layers.flatMap(layer =>
    'extra' in layer ? [`${layer.extra.name.en} beneath: over all of it, ${f.area(area)}`] : [],
  )
  return [...volumes, ...sheets]
}

function openStep(bed: Bed, table: RateTable, f: Figures): string {
  const taken = table.planted[bed.planted]
  return Number(taken) === 0 ? '' : ` × ${f.plain(one.minus(taken))} not covered by plants`
}

function edgeStep(bed: Bed, { edge }: BedQuantities, f: Figures): string[] {
  if (edge === null) return []
  if (bed.noEdge.isZero()) return [`Edge: ${f.length(edge)}`]
  return [
    `Edge: ${f.length(edge.plus(bed.noEdge))} − ${f.length(bed.noEdge)} with no edge = ${f.length(edge)}`,
  ]
}

function slownessStep(bed: Bed, table: RateTable, f: Figures): string[] {
  const slowness = slownessOf(bed, table)
  if (slowness.eq(one)) return []
  const { carry, stair, planted } = table.labor
  const beyond = Decimal.max(0, bed.carry.minus(carry.free))
  const parts = [
    ...(beyond.gt(0) && Number(carry.adds) > 0
      ? [
          `1 + ${f.length(beyond)} ÷ ${f.length(new Decimal(carry.each))} × ${f.plain(carry.adds)} for the distance`,
        ]
      : []),
    ...(bed.stairs > 0 && Number(stair) > 0 ? [`1 + ${bed.stairs} × ${f.plain(stair, 4)} for stairs`] : []),
    ...timesStep(slopeOf(bed, table), 'the slope', f),
    ...timesStep(gateOf(bed, table), 'the narrow gate', f),
    ...timesStep(planted[bed.planted], 'plants', f),
  ]
  const times = f.plain(slowness, 3)
  const [only] = parts
  if (parts.length === 1 && only!.startsWith(`${times} `)) return [`Spreading is slower: × ${only}`]
  return [`Spreading is slower: ${parts.map(part => `(${part})`).join(' × ')} = ${times}`]
}

function timesStep(times: string, what: string, f: Figures): string[] {
  return Number(times) === 1 ? [] : [`${f.plain(times, 3)} for ${what}`]
}
