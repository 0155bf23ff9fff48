import type { BedTold } from '../../src/estimate/job/bed.ts'

// Written on its own from what is meant, in plain numbers; it shares no code with the estimate.

/** The area of a shape of these sizes, in ft²; of a bed along a line, alike says which strips were told as long as the next. */
export function areaOf(shape: string, size: Record<string, number>, alike: boolean[] = []): number {
  if (shape === 'offsets' || shape === 'uneven-offsets') return alongLine(size, alike)
  if (shape === 'radii') return Math.PI * meanSquare(Object.values(size))
  if (shape === 'circle') return (Math.PI / 4) * size.diameter! ** 2
  if (shape === 'oval') return (Math.PI / 4) * size.length! * size.width!
  if (shape === 'triangle') return (size.base! * size.height!) / 2
  if (shape === 'ring') return (Math.PI / 4) * (size.outer! ** 2 - size.inner! ** 2)
  if (shape === 'tree-ring') return (Math.PI / 4) * ((size.inner! + 2 * size.band!) ** 2 - size.inner! ** 2)
  if (shape === 'two-arms') return size.length! * size.width! + size.armLength! * size.armWidth!
  if (shape === 'circle-round') return size.round! ** 2 / (4 * Math.PI)
  if (shape === 'half-circle') return (Math.PI / 8) * size.diameter! ** 2
  if (shape === 'quarter-circle') return (Math.PI / 4) * size.radius! ** 2
  if (shape === 'sides') return triangleArea(size.a!, size.b!, size.c!)
  if (shape === 'trapezoid') return ((size.base! + size.top!) / 2) * size.height!
  if (shape === 'l-shape') return size.length! * size.width! - size.cutLength! * size.cutWidth!
  if (shape === 'area') return size.area!
  return size.length! * size.width!
}

function meanSquare(figures: number[]): number {
  return figures.reduce((sum, figure) => sum + figure * figure, 0) / figures.length
}

/** Of a bed along a line: whether each strip was told to be as long as the one after it. */
export function alikeOf({ shape, sizes }: BedTold): boolean[] {
  if (shape === 'offsets')
    return sizes
      .offsets!.split(' ')
      .slice(2)
      .map(() => true)
  const told = (sizes.spacings ?? '').split(' ').map(Number)
  return told.slice(1).map((spacing, at) => spacing === told[at])
}

// A parabola through three widths where two told distances are alike, Lagrange's for whatever they really are.
function alongLine(size: Record<string, number>, alike: boolean[]): number {
  let area = 0
  for (let at = 0; at <= alike.length; at++) {
    const [h, k] = [size.spacing ?? size[`spacings.${at}`]!, size.spacing ?? size[`spacings.${at + 1}`]!]
    const [a, b, c] = [size[`offsets.${at}`]!, size[`offsets.${at + 1}`]!, size[`offsets.${at + 2}`]!]
    if (alike[at]) {
      area += ((h + k) / 6) * ((2 - k / h) * a + ((h + k) ** 2 / (h * k)) * b + (2 - h / k) * c)
      at++
    } else area += ((a + b) / 2) * h
  }
  return area
}

// Half of two sides and the sine between them, by the law of cosines.
function triangleArea(a: number, b: number, c: number): number {
  const cosine = (a * a + b * b - c * c) / (2 * a * b)
  return (a * b * Math.sqrt(Math.max(0, 1 - cosine * cosine))) / 2
}

/** What gets an edge, in ft; nothing where it can't be known. */
export function edgeOf(shape: string, size: Record<string, number>): number {
  const { length: l = 0, width: w = 0, diameter: d = 0 } = size
  if (shape === 'area' || shape === 'volume') return 0
  if (shape === 'strip') return l + 2 * w
  if (shape === 'circle') return Math.PI * d
  if (shape === 'half-circle') return d * (1 + Math.PI / 2)
  if (shape === 'quarter-circle') return size.radius! * (2 + Math.PI / 2)
  if (shape === 'circle-round') return size.round!
  if (shape === 'oval') return ellipseRound(l / 2, w / 2)
  if (shape === 'triangle') return size.base! + 2 * Math.hypot(size.base! / 2, size.height!)
  if (shape === 'ring') return Math.PI * (size.outer! + size.inner!)
  if (shape === 'tree-ring') return Math.PI * (2 * size.inner! + 2 * size.band!)
  if (shape === 'two-arms') return 2 * (l + w + size.armLength!)
  if (shape === 'sides') return size.a! + size.b! + size.c!
  if (shape === 'trapezoid')
    return size.base! + size.top! + 2 * Math.hypot((size.base! - size.top!) / 2, size.height!)
  if (shape === 'radii') return roundStake(Object.values(size))
  if (shape === 'offsets' || shape === 'uneven-offsets') return roundLine(size)
  return 2 * (l + w)
}

// Ramanujan's second approximation, exact to a thousandth at any ellipse that is a bed.
function ellipseRound(a: number, b: number): number {
  const h = ((a - b) / (a + b)) ** 2
  return Math.PI * (a + b) * (1 + (3 * h) / (10 + Math.sqrt(4 - 3 * h)))
}

// Chords by the law of cosines, lengthened as the circle is to the polygon in it.
function roundStake(radii: number[]): number {
  const angle = (2 * Math.PI) / radii.length
  const chords = radii.map((one, at) => {
    const next = radii[(at + 1) % radii.length]!
    return Math.sqrt(one * one + next * next - 2 * one * next * Math.cos(angle))
  })
  return (chords.reduce((sum, chord) => sum + chord, 0) * angle) / 2 / Math.sin(angle / 2)
}

function roundLine(size: Record<string, number>): number {
  let edge = size['offsets.0']!
  let at = 0
  for (; size[`offsets.${at + 1}`] !== undefined; at++) {
    const along = size.spacing ?? size[`spacings.${at}`]!
    edge += along + Math.hypot(along, size[`offsets.${at + 1}`]! - size[`offsets.${at}`]!)
  }
  return edge + size[`offsets.${at}`]!
}
