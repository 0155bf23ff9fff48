import { type Decimal, sumOf, two } from '../../lib/decimal.ts'
import type { ShapeName } from '../shapes/shape-names.ts'
import type { Sizes } from '../shapes/sizes.ts'
import { listOf } from '../shapes/sizes.ts'
import type { Figures } from './figures.ts'

type Formula = (sizes: Sizes, figures: Figures) => string

const byLength: Formula = ({ length, width }, f) => `${f.length(length!)} × ${f.length(width!)}`

/** How a shape's area follows from its sizes, without what it comes to: '20 ft × 5 ft'. */
const formulas: Record<ShapeName, Formula> = {
  rectangle: byLength,
  strip: byLength,
  curvy: (sizes, f) => `about ${byLength(sizes, f)}`,
  circle: ({ diameter }, f) => `π × (${f.length(diameter!)})² ÷ 4`,
  oval: ({ length, width }, f) => `π × ${f.length(length!)} × ${f.length(width!)} ÷ 4`,
  triangle: ({ base, height }, f) => `${f.length(base!)} × ${f.length(height!)} ÷ 2`,
  ring: ({ outer, inner }, f) => `π × ((${f.length(outer!)})² − (${f.length(inner!)})²) ÷ 4`,
  area: () => 'as told',
  volume: ({ volume }, f) => `as deep as told, of ${f.volume(volume!)}`,
  'circle-round': ({ round }, f) => `(${f.length(round!)})² ÷ (4 × π)`,
  'half-circle': ({ diameter }, f) => `π × (${f.length(diameter!)})² ÷ 8`,
  'quarter-circle': ({ radius }, f) => `π × (${f.length(radius!)})² ÷ 4`,
  sides: ({ a, b, c }, f) => {
    const half = a!.plus(b!).plus(c!).div(two)
    const factors = [half, half.minus(a!), half.minus(b!), half.minus(c!)].map(factor => f.plain(factor))
    return `half round it is ${f.length(half)}; √(${factors.join(' × ')})`
  },
  trapezoid: ({ base, top, height }, f) =>
    `(${f.length(base!)} + ${f.length(top!)}) ÷ 2 × ${f.length(height!)}`,
  'l-shape': ({ length, width, cutLength, cutWidth }, f) =>
    `${f.length(length!)} × ${f.length(width!)} − ${f.length(cutLength!)} × ${f.length(cutWidth!)}`,
  offsets: (sizes, f) => byOffsets(sizes.spacing!, listOf(sizes, 'offsets'), f),
  'uneven-offsets': (sizes, f) => byStrips(listOf(sizes, 'spacings'), listOf(sizes, 'offsets'), f),
  radii: (sizes, f) => {
    const squares = listOf(sizes, 'radii').map(radius => radius.pow(2))
    return `π × the mean of the squares, ${f.plain(sumOf(squares))} ÷ ${squares.length}`
  },
}

/** How the area of a shape follows from its sizes, in words and figures, without what it comes to. */
export function areaFormula(shape: ShapeName, sizes: Sizes, figures: Figures): string {
  return formulas[shape](sizes, figures)
}

function byOffsets(spacing: Decimal, widths: Decimal[], f: Figures): string {
  const odd = widths.length % 2 === 1 ? widths : widths.slice(0, -1)
  const last = widths.slice(odd.length - 1)
  const rest =
    last.length > 1 ? `${f.length(spacing)} × (${f.plain(last[0]!)} + ${f.plain(last[1]!)}) ÷ 2` : ''
  if (odd.length < 3) return rest
  const inner = odd.slice(1, -1)
  const sum = (every: number) => f.plain(sumOf(inner.filter((_, at) => at % 2 === every)))
  const ends = f.plain(odd[0]!.plus(odd.at(-1)!))
  const twice = inner.length > 1 ? ` + 2 × ${sum(1)}` : ''
  const simpson = `${f.length(spacing)} ÷ 3 × (${ends} + 4 × ${sum(0)}${twice})`
  return rest ? `${simpson} + ${rest}` : simpson
}

// Two neighbouring strips of one spacing by Simpson's rule, a strip without such a neighbour as a trapezoid.
function byStrips(spacings: Decimal[], widths: Decimal[], f: Figures): string {
  const parts: string[] = []
  for (let at = 0; at < spacings.length; ) {
    const spacing = spacings[at]!
    const paired = spacings[at + 1]?.eq(spacing) ?? false
    const [a, b, c] = widths.slice(at, at + 3).map(width => f.plain(width))
    parts.push(
      paired
        ? `${f.length(spacing)} ÷ 3 × (${a} + 4 × ${b} + ${c})`
        : `${f.length(spacing)} × (${a} + ${b}) ÷ 2`,
    )
    at += paired ? 2 : 1
  }
  return parts.join(' + ')
}
