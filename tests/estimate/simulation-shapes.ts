// Written on its own from what is meant, in plain numbers; it shares no code with the estimate.

/** The area of a shape of these sizes, in ft². */
export function areaOf(shape: string, size: Record<string, number>): number {
  if (shape === 'offsets' || shape === 'uneven-offsets') return alongLine(size)
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

// Two strips at a time a parabola through three widths, by divided differences; where one strip is more than twice the other as
// much of it as keeps each width from counting less than nothing, and two trapezoids for the rest. A last strip is a trapezoid.
function alongLine(size: Record<string, number>): number {
  const width = (at: number) => size[`offsets.${at}`]!
  const along = (at: number) => size.spacing ?? size[`spacings.${at}`]!
  let area = 0
  for (let at = 0; size[`offsets.${at + 1}`] !== undefined; at += 2) {
    const [h, a, b, c] = [along(at), width(at), width(at + 1), size[`offsets.${at + 2}`]]
    if (c === undefined) return area + ((a + b) / 2) * h
    const k = along(at + 1)
    const whole = h + k
    const [rise, bend] = [(b - a) / h, ((c - b) / k - (b - a) / h) / whole]
    const parabola = a * whole + (rise * whole ** 2) / 2 + bend * (whole ** 3 / 3 - (h * whole ** 2) / 2)
    const ratio = Math.max(h / k, k / h)
    const share = ratio > 2 ? 3 / (3 + (ratio + 1) * (ratio - 2)) : 1
    area += share * parabola + (1 - share) * (((a + b) / 2) * h + ((b + c) / 2) * k)
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
