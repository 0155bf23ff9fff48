import type { Decimal } from '../../lib/decimal.ts'
import type { FormName } from '../table/rate-table.ts'
import type { ShapeFaultKey } from './fault-keys.ts'
import type { Outline } from './outline.ts'
import type { Sizes } from './sizes.ts'

/** A size that a shape is told by; `lengths` are a list, as of widths. */
export interface AskedSize {
  name: string
  reads: 'length' | 'area' | 'volume' | 'lengths'
}

/** One line of an icon: SVG path data in a frame 56 wide and 40 high; drawn as an outline where `as` doesn't say else. */
export interface IconLine {
  path: string
  as?: 'thin' | 'dashed' | 'solid' | 'wall'
}

/** Writes the figures of a formula: rounded, with their units. */
export interface FormulaFigures {
  plain(value: Decimal): string
  length(value: Decimal): string
  volume(value: Decimal): string
}

/** A relative standard error: one that a figure of the rate table says, or one that follows from the sizes. */
export type FormError = FormName | number

/** One shape a bed can have. All but its sentences is told here; whatever shows shapes follows from it. */
export interface Shape {
  /** Whether homeowners are offered it; the site-visit sheet and other programs have every shape. */
  offered: boolean
  /** What it is picked by. */
  icon: readonly IconLine[]
  /** What is asked for, in the order asked. */
  sizes: readonly AskedSize[]
  /** In ft²|m². The depth, in ft|m, matters only where a volume was told. */
  area(sizes: Sizes, depth: Decimal): Decimal
  /** How the area follows from the sizes, for the worksheet, without what it comes to: '20 ft × 5 ft'. */
  formula(sizes: Sizes, figures: FormulaFigures): string
  /** The outline that gets an edge, in ft|m; null where it isn't known. */
  edge(sizes: Sizes): Decimal | null
  /** How strongly the area follows each size: size ÷ area × ∂area/∂size, in the order of sizes, lists unfolded. */
  elasticities(sizes: Sizes): number[]
  /** How strongly the edge follows each size, likewise; where it doesn't say, that is worked out from the edge. */
  edgeElasticities?(sizes: Sizes): number[]
  /** A relative standard error of its own beside that of measuring: how roughly the shape describes a bed. */
  formError(sizes: Sizes): FormError
  /** Sizes that can't be together: which one is wrong, and the key of the message; null when they can. */
  impossible(sizes: Sizes): { size: string; key: ShapeFaultKey } | null
  /** Rectangles that cover it, in ft|m, where the one around it would be mostly empty; larger sizes make none smaller. */
  rectangles?(sizes: Sizes): [Decimal, Decimal][]
  /** How it is drawn; null where there is nothing to draw. */
  outline(sizes: Sizes): Outline | null
}
