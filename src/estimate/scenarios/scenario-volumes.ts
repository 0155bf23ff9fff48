import type { Points } from './points.ts'
import type { ScenarioBed, ScenarioFinish, ScenarioGroup } from './scenario-beds.ts'

/** Gives the depth to add in every scenario, in in|cm, for what the bed was told to have and to get. */
export type DepthsOf = (bed: ScenarioBed) => Float64Array

/** max(thinnest, target − max(0, m + s·H)), worked out once for beds alike in these. */
export function depthsOver(points: Points): DepthsOf {
  const ofBed = new Map<ScenarioBed, Float64Array>()
  const alike = new Map<string, Float64Array>()
  const told = new Float64Array(points.count).fill(1)
  const find = (bed: ScenarioBed) => {
    const [lying, error] = bed.fresh ? [0, 0] : [bed.lying, bed.lyingError]
    const key = `${bed.thinnest} ${bed.target} ${lying} ${error}`
    const depths = alike.get(key) ?? addedDepths(bed, lying, error, points)
    alike.set(key, depths)
    return depths
  }
  return bed => {
    if (bed.told) return told
    const depths = ofBed.get(bed) ?? find(bed)
    ofBed.set(bed, depths)
    return depths
  }
}

// Loops over the scenarios are plain: a call for each of them takes longer than the sums.
function addedDepths(
  bed: ScenarioBed,
  lying: number,
  error: number,
  { count, depthBias }: Points,
): Float64Array {
  const { thinnest, target } = bed
  const depths = new Float64Array(count)
  for (let point = 0; point < count; point++)
    depths[point] = Math.max(thinnest, target - Math.max(0, lying + error * depthBias[point]!))
  return depths
}

interface Layer {
  depths: Float64Array
  sum: number
  shared: number
  own: number
}

/** A finish's volume in every scenario: max(0, Σv(1 + cB) + Z·√Σ(v·o)²). */
export function finishVolumes(finish: ScenarioFinish, points: Points, depthsOf: DepthsOf): Float64Array {
  return sumGroups(finish, points, depthsOf, bed => bed.cover)
}

/** The volume that would take as long to lay with nothing in the way: each bed's counts as often as it is slow. */
export function slowedVolumes(
  finish: ScenarioFinish,
  volumes: Float64Array,
  points: Points,
  depthsOf: DepthsOf,
): Float64Array {
  const beds = [finish, ...finish.beneath].flatMap(group => group.beds)
  const [first] = beds
  if (beds.every(({ slowness }) => slowness === first!.slowness))
    return first!.slowness === 1 ? volumes : volumes.map(volume => volume * first!.slowness)
  return sumGroups(finish, points, depthsOf, bed => bed.cover * bed.slowness)
}

/** What is on top and what is beneath: layers of one bed share the Z of its top finish. */
function sumGroups(
  finish: ScenarioFinish,
  points: Points,
  depthsOf: DepthsOf,
  coverOf: (bed: ScenarioBed) => number,
): Float64Array {
  const sums = sumGroup(finish, points, depthsOf, coverOf)
  for (const group of finish.beneath) {
    const more = sumGroup(group, points, depthsOf, coverOf)
    for (let point = 0; point < points.count; point++) sums[point]! += more[point]!
  }
  return sums
}

function sumGroup(
  { own, beds }: ScenarioGroup,
  points: Points,
  depthsOf: DepthsOf,
  coverOf: (bed: ScenarioBed) => number,
): Float64Array {
  const layers = new Map<Float64Array, Layer>()
  for (const bed of beds) addTo(layers, depthsOf(bed), coverOf(bed), bed)
  return sumLayers([...layers.values()], points, points.own[own]!)
}

/** The area of a finish's beds in every scenario: plants don't lessen it, so how sure their share is has no part in it. */
export function finishAreas(finish: ScenarioFinish, points: Points): Float64Array {
  const layers = new Map<Float64Array, Layer>()
  const flat = new Float64Array(points.count).fill(1)
  for (const bed of finish.beds) addTo(layers, flat, bed.area, bed, bed.errors.ownArea)
  return sumLayers([...layers.values()], points, points.own[finish.own]!)
}

/** The old material of a finish's beds in every scenario, as it lies, in yd³|m³. */
export function lyingVolumes(finish: ScenarioFinish, points: Points): Float64Array {
  const layers = new Map<Float64Array, Layer>()
  for (const bed of finish.beds) {
    const depths = new Float64Array(points.count)
    for (let point = 0; point < points.count; point++)
      depths[point] = Math.max(0, bed.lying + bed.lyingError * points.depthBias[point]!)
    addTo(layers, depths, bed.ground, bed)
  }
  return sumLayers([...layers.values()], points, points.own[finish.own]!)
}

/**
 * The edge of all beds, or of those that are wanted, in every scenario: ΣE(1 + cB) + √Σ(E·o)²·(a·Z + √(1 − a²)·Y), the last of
 * each finish by itself. a is how far it goes with the finish's volume, and so with its Z; Y are other points.
 */
export function edgeLengths(
  finishes: ScenarioFinish[],
  { count: scenarios, bias, own }: Points,
  wanted: Set<number> | null,
): Float64Array {
  let [sum, shared] = [0, 0]
  const apart = new Float64Array(scenarios)
  for (const { own: at, beds } of finishes) {
    for (const { index, edge, count, errors } of beds) {
      if (wanted && !wanted.has(index)) continue
      sum += edge * count
      shared += edge * count * errors.edge
    }
    const { error, alike } = ownEdge(beds, wanted)
    if (error === 0) continue
    const [points, others] = [own[at]!, own[(at + OTHER_POINTS) % own.length]!]
    const [going, other] = [error * alike, error * Math.sqrt(1 - alike * alike)]
    for (let point = 0; point < scenarios; point++) apart[point]! += going * points[point]!
    if (other > 0) for (let point = 0; point < scenarios; point++) apart[point]! += other * others[point]!
  }
  const lengths = new Float64Array(scenarios)
  for (let point = 0; point < scenarios; point++)
    lengths[point] = Math.max(0, sum + shared * bias[point]! + apart[point]!)
  return lengths
}

// Those of a finish that few tables have.
const OTHER_POINTS = 7

/** The own error of the edges of a finish's beds together, in ft|m, and how far it goes with that of their volume. */
function ownEdge(beds: ScenarioBed[], wanted: Set<number> | null): { error: number; alike: number } {
  let [variance, volumes, both, wholly] = [0, 0, 0, false]
  for (const { index, edge, volume, count, errors } of beds) {
    volumes += (volume * errors.own) ** 2 * count
    if (edge === 0 || (wanted && !wanted.has(index))) continue
    variance += (edge * errors.ownEdge) ** 2 * count
    if (errors.ownBoth === undefined) wholly = true
    else both += edge * volume * errors.ownBoth * count
  }
  if (wholly || variance === 0 || volumes === 0) return { error: Math.sqrt(variance), alike: wholly ? 1 : 0 }
  const alike = both / Math.sqrt(variance * volumes)
  return { error: Math.sqrt(variance), alike: Math.max(-1, Math.min(1, alike)) }
}

function addTo(
  layers: Map<Float64Array, Layer>,
  depths: Float64Array,
  cover: number,
  bed: ScenarioBed,
  own = bed.errors.own,
): void {
  const layer = layers.get(depths) ?? { depths, sum: 0, shared: 0, own: 0 }
  layer.sum += cover * bed.count
  layer.shared += cover * bed.count * bed.errors.shared
  layer.own += (cover * own) ** 2 * bed.count
  layers.set(depths, layer)
}

// Written over each time.
let variances = new Float64Array(0)

function sumLayers(layers: Layer[], { count, bias }: Points, own: Float64Array): Float64Array {
  const sums = new Float64Array(count)
  if (variances.length !== count) variances = new Float64Array(count)
  variances.fill(0)
  for (const { depths, sum, shared, own: variance } of layers) {
    for (let point = 0; point < count; point++) {
      const depth = depths[point]!
      sums[point]! += depth * (sum + shared * bias[point]!)
      variances[point]! += depth * depth * variance
    }
  }
  for (let point = 0; point < count; point++) {
    sums[point] = Math.max(0, sums[point]! + own[point]! * Math.sqrt(variances[point]!))
  }
  return sums
}
