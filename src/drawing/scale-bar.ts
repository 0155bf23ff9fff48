import { figure } from './dimension-lines.ts'
import { num } from './svg.ts'

const LONGEST = 90

/**
 * The bar that tells the scale, as on a plan: two halves, one filled, and its length beside it.
 * @param scale drawing units per ft|m
 */
export function drawScaleBar(x: number, y: number, scale: number, unit: string): string {
  const length = roundLength(LONGEST / scale)
  const half = (length * scale) / 2
  return (
    `<rect class="scale-filled" x="${num(x)}" y="${num(y)}" width="${num(half)}" height="4"/>` +
    `<rect class="scale-empty" x="${num(x + half)}" y="${num(y)}" width="${num(half)}" height="4"/>` +
    figure(x + half * 2 + 7, y + 7, 'start', `${length} ${unit}`)
  )
}

/** The largest of 1, 2, 5, 10, 20, 50 and so on (or 0.5, 0.2 …) that isn't over `most`. */
export function roundLength(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most))
  const step = [5, 2, 1].find(factor => factor * power <= most * 1.000001) ?? 1
  return Number((step * power).toPrecision(1))
}
