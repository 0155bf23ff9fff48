import type { ShapeFaultKey } from '../shapes/fault-keys.ts'

/** What a box can be read as. */
export type MeasureKind = 'length' | 'depth' | 'area' | 'volume'

/** Why a box couldn't be read. */
export type WhyMisread = 'missing' | 'unreadable' | 'not-positive' | 'absurd'

export type MisreadKey =
  | 'fault.too-long'
  | 'fault.falls'
  | 'fault.is-area'
  | 'fault.is-volume'
  | 'fault.volume-unit'
  | `fault.${MeasureKind}-${WhyMisread}`

/**
 * What can be wrong with a job as told, by the keys of the language's sentences: `src/language/faults.ts` is held
 * against this, and has a sentence for each and no other.
 */
export type FaultKey =
  | ShapeFaultKey
  | MisreadKey
  | 'fault.beds-too-many'
  | 'fault.count'
  | 'fault.cut-outs'
  | 'fault.cut-outs-large'
  | 'fault.cut-outs-many'
  | 'fault.cut-outs-unsure'
  | 'fault.cut-outs-volume'
  | 'fault.extra'
  | 'fault.extra-group'
  | 'fault.extra-job-group'
  | 'fault.figures-too-many'
  | 'fault.finish'
  | 'fault.finish-sold-out'
  | 'fault.gate'
  | 'fault.l-shape-narrow'
  | 'fault.layer'
  | 'fault.layer-deep'
  | 'fault.layers'
  | 'fault.layers-too-many'
  | 'fault.list-long'
  | 'fault.lying'
  | 'fault.measured-by'
  | 'fault.no-edge'
  | 'fault.no-edge-unknown'
  | 'fault.no-extras'
  | 'fault.planted'
  | 'fault.planted-unsure'
  | 'fault.postcode'
  | 'fault.other-side'
  | 'fault.ring-narrow'
  | 'fault.shape'
  | 'fault.size-twice'
  | 'fault.slope'
  | 'fault.stairs'
  | 'fault.too-many-extras'
  | 'fault.too-unsure'
  | 'fault.work'
  | 'fault.beds-missing'
