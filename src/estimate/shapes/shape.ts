import type { Decimal } from '../../lib/decimal.ts'
import type { ShapeFaultKey } from './fault-keys.ts'
import type { Outline } from './outline.ts'
import type { Sizes } from './sizes.ts'

/** One shape a bed can have. */
export interface Shape {
  /** What is asked for, in the order asked. */
  sizes: readonly { name: string; reads: 'length' | 'area' | 'volume' | 'lengths' }[]
  /** In ft²|m². The depth, in ft|m, matters only where a volume was told. */
  area(sizes: Sizes, depth: Decimal): Decimal
  /** The outline that gets an edge, in ft|m; null where it isn't known. */
  edge(sizes: Sizes): Decimal | null
  /** How strongly the area follows each size: size ÷ area × ∂area/∂size, in the order of sizes, lists unfolded. */
  elasticities(sizes: Sizes): number[]
  /** A relative standard error of its own beside that of measuring: how roughly the shape describes a bed. */
  ownError: number
  /** Sizes that can't be together: which one is wrong, and the key of the message; null when they can. */
  impossible(sizes: Sizes): { size: string; key: ShapeFaultKey } | null
  /** How it is drawn; null where there is nothing to draw. */
  outline(sizes: Sizes): Outline | null
}
