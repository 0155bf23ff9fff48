import { rectangle } from './rectangle.ts'
import type { Shape } from './shape.ts'
import { sidesOutline } from './sides.ts'
import { pathNumber } from './svg-path.ts'

// "About this long and wide": the middle length and width are told, so it has their rectangle's area and edge.
export const curvy: Shape = {
  ...rectangle,
  icon: [{ path: 'M6 24C4 10 18 4 26 10S40 6 48 12S54 32 42 32S28 26 20 31S8 34 6 24Z' }],
  formula: (sizes, f) => `about ${rectangle.formula(sizes, f)}`,
  formError: () => 'curvy',
  outline: sizes => sidesOutline(sizes, wavyPath),
}

const waves = [
  [0, 0.15, 0.12, 0, 0.28, 0],
  [0.42, 0, 0.46, 0.16, 0.6, 0.16],
  [0.72, 0.16, 0.74, 0, 0.85, 0],
  [0.96, 0, 1, 0.2, 1, 0.45],
  [1, 0.85, 0.9, 1, 0.74, 1],
  [0.6, 1, 0.56, 0.84, 0.42, 0.84],
  [0.3, 0.84, 0.28, 1, 0.16, 1],
  [0.05, 1, 0, 0.85, 0, 0.55],
]

function wavyPath(length: number, width: number): string {
  const scaled = (at: number, index: number) => pathNumber(at * (index % 2 === 0 ? length : width))
  const curves = waves.map(wave => `C${wave.map(scaled).join(' ')}`)
  return `M0 ${pathNumber(0.55 * width)}${curves.join('')}Z`
}
