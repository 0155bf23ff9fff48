import type { Outline } from './outline.ts'
import type { Sizes } from './sizes.ts'
import { pathNumber } from './svg-path.ts'

export const lengthAndWidth = [
  { name: 'length', reads: 'length' },
  { name: 'width', reads: 'length' },
] as const

/** A bed drawn length across and width down, with both dimension lines outside it. */
export function sidesOutline(sizes: Sizes, path: (length: number, width: number) => string): Outline {
  const [length, width] = [pathNumber(sizes.length!), pathNumber(sizes.width!)]
  return {
    width: length,
    height: width,
    path: path(length, width),
    wall: null,
    dimensions: [
      { size: 'length', from: [0, width], to: [length, width], place: 'below' },
      { size: 'width', from: [0, 0], to: [0, width], place: 'left' },
    ],
    notional: false,
  }
}
