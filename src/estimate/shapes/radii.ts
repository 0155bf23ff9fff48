import { Decimal, pi, squareRoot, sumOf, two } from '../../lib/decimal.ts'
import type { Shape } from './shape.ts'
import type { Sizes } from './sizes.ts'
import { listOf } from './sizes.ts'
import { pathNumber } from './svg-path.ts'

const FEWEST = 4

/**
 * A bed round a peg, by the distances to its edge at equal angles: pi times the mean of their squares. The square of
 * their mean, which some sheets teach, falls short wherever the bed isn't a circle round the peg.
 */
export const radii: Shape = {
  offered: false,
  icon: [
    { path: 'M8 22C6 10 18 4 28 6S50 8 49 20S38 35 26 34S10 32 8 22Z' },
    { path: 'M28 20V6M28 20L48 15M28 20L40 32M28 20L19 33M28 20L9 15', as: 'thin' },
  ],
  sizes: [{ name: 'radii', reads: 'lengths' }],
  area: sizes => {
    const squares = squaresOf(sizes)
    return pi.times(sumOf(squares)).div(squares.length)
  },
  formula: (sizes, f) => {
    const squares = squaresOf(sizes)
    return `π × the mean of the squares, ${f.plain(sumOf(squares))} ÷ ${squares.length}`
  },
  // The chords, lengthened as a circle is longer than the polygon in it.
  edge: sizes => {
    const all = listOf(sizes, 'radii')
    const angle = two.times(pi).div(all.length)
    const cos = Decimal.cos(angle)
    const chords = all.map((one, at) => {
      const next = all[(at + 1) % all.length]!
      const squares = one.times(one).plus(next.times(next))
      return squareRoot(squares.minus(one.times(next).times(2).times(cos)))
    })
    const half = angle.div(two)
    return sumOf(chords).times(half).div(Decimal.sin(half))
  },
  elasticities: sizes => {
    const squares = squaresOf(sizes)
    const whole = sumOf(squares)
    return squares.map(square => square.times(two).div(whole).toNumber())
  },
  // In plain numbers: of a long list each would else be worked out over and over.
  edgeElasticities: sizes => {
    const all = listOf(sizes, 'radii').map(Number)
    const cos = Math.cos((2 * Math.PI) / all.length)
    const parts = all.map(() => 0)
    for (const [at, one] of all.entries()) {
      const next = (at + 1) % all.length
      const chord = Math.sqrt(one ** 2 + all[next]! ** 2 - 2 * one * all[next]! * cos)
      parts[at]! += (one * (one - all[next]! * cos)) / chord
      parts[next]! += (all[next]! * (all[next]! - one * cos)) / chord
    }
    const edge = parts.reduce((sum, part) => sum + part, 0)
    return parts.map(part => part / edge)
  },
  formError: sizes => Math.max(0.01, 6 / listOf(sizes, 'radii').length ** 2),
  impossible: sizes => {
    const all = listOf(sizes, 'radii')
    if (all.length < FEWEST) return { size: 'radii', key: 'fault.radii-few' }
    return all.some(radius => radius.isZero()) ? { size: 'radii', key: 'fault.radii-zero' } : null
  },
  outline: sizes => {
    const all = listOf(sizes, 'radii').map(Number)
    const corners = all.map((radius, at) => {
      const angle = (2 * Math.PI * at) / all.length - Math.PI / 2
      return [radius * Math.cos(angle), radius * Math.sin(angle)] as const
    })
    const [left, top] = [Math.min(...corners.map(([x]) => x)), Math.min(...corners.map(([, y]) => y))]
    const moved = corners.map(([x, y]) => [pathNumber(x - left), pathNumber(y - top)] as const)
    return {
      width: Math.max(...moved.map(([x]) => x)),
      height: Math.max(...moved.map(([, y]) => y)),
      path: `M${moved.map(([x, y]) => `${x} ${y}`).join('L')}Z`,
      wall: null,
      dimensions: [],
      notional: false,
    }
  },
}

function squaresOf(sizes: Sizes): Decimal[] {
  return listOf(sizes, 'radii').map(radius => radius.pow(2))
}
