/** The shapes that a homeowner can pick from without a sketch. */
export const simpleShapes = [
  'rectangle',
  'strip',
  'curvy',
  'circle',
  'oval',
  'triangle',
  'ring',
  'area',
  'volume',
] as const

/** Every shape; those after the simple ones are for whoever measures on site, and for other programs. */
export const shapeNames = [
  ...simpleShapes,
  'circle-round',
  'half-circle',
  'quarter-circle',
  'sides',
  'trapezoid',
  'l-shape',
  'offsets',
  'uneven-offsets',
  'radii',
] as const

export type ShapeName = (typeof shapeNames)[number]
