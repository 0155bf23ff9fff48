import type { Decimal } from '../../lib/decimal.ts'
import type { Finish } from '../table/rate-table.ts'
import type { Bed, Layer } from './bed.ts'

/** A layer of a finish, and what it takes, in ft³|m³. */
export interface LayerVolume {
  finish: Finish
  depth: Decimal
  inPlace: Decimal
}

/** What the layers of one bed take; `volumeAt` gives the volume of a depth in in|cm over what is open of it. */
export function layerVolumes({ layers }: Bed, volumeAt: (depth: Decimal) => Decimal): LayerVolume[] {
  return layers.flatMap(layer => ('finish' in layer ? [{ ...layer, inPlace: volumeAt(layer.depth) }] : []))
}

/** Whether all of the depth is laid: nothing stays of what lies there, or layers come over it. */
export function isLaidWhole({ work, layers }: Pick<Bed, 'work' | 'layers'>): boolean {
  return work === 'new' || layers.length > 0
}

/** Whether an extra is one of the layers. */
export function hasLayer({ layers }: Pick<Bed, 'layers'>, slug: string): boolean {
  return layers.some(layer => 'extra' in layer && layer.extra.slug === slug)
}

/** What a layer is called by. */
export function partOf(layer: Layer) {
  return 'finish' in layer ? layer.finish : layer.extra
}
