import type { Outline, PlacedCutOut } from '../shapes/outline.ts'
import { type Box, holdsBox, type Point, ringsOf } from '../shapes/path-rings.ts'
import { valuesOf } from '../shapes/sizes.ts'
import { ellipsePath, pathNumber } from '../shapes/svg-path.ts'
import type { CutOut } from './bed.ts'

/** More than these are only named: nobody could tell them apart. */
const MOST_DRAWN = 12
const GRID = 20

/**
 * The outline with its cut-outs drawn to scale as holes in it. Where they are isn't told, so they stand in a row along
 * the middle, or as near to it as they fit. When they don't all fit the outline stays as it is.
 */
export function withCutOuts(outline: Outline, cutOuts: CutOut[]): Outline {
  const holes = cutOuts.flatMap((cutOut, of) => Array.from({ length: cutOut.count }, () => ({ cutOut, of })))
  if (holes.length === 0 || holes.length > MOST_DRAWN) return outline
  const rings = ringsOf(outline.path)
  const placed: PlacedCutOut[] = []
  for (const [index, { cutOut, of }] of holes.entries()) {
    const ideal: Point = [(outline.width * (index + 0.5)) / holes.length, outline.height / 2]
    const box = placeBox(sizeOf(cutOut), ideal, outline, rings, placed)
    if (!box) return outline
    placed.push({ ...box, of, round: cutOut.shape === 'circle' })
  }
  return { ...outline, path: outline.path + placed.map(pathOf).join(''), cutOuts: placed }
}

// A plain area is drawn as a square, as a bed told by its area is.
function sizeOf({ shape, sizes }: CutOut): Pick<Box, 'width' | 'height'> {
  const { length, width, diameter, area } = valuesOf(sizes)
  if (shape === 'rectangle') return { width: length!.toNumber(), height: width!.toNumber() }
  const side = (diameter ?? area!.sqrt()).toNumber()
  return { width: side, height: side }
}

function placeBox(
  size: Pick<Box, 'width' | 'height'>,
  ideal: Point,
  outline: Outline,
  rings: Point[][],
  placed: Box[],
): Box | null {
  const gap = Math.max(outline.width, outline.height) / 100
  const fits = ([x, y]: Point) => {
    const box = { x: x - size.width / 2, y: y - size.height / 2, ...size }
    return holdsBox(rings, grown(box, gap)) && !placed.some(other => meet(grown(box, gap), other))
  }
  const upright = { width: size.height, height: size.width }
  const found = fits(ideal) ? ideal : nearest(ideal, outline).find(fits)
  if (found) return { x: found[0] - size.width / 2, y: found[1] - size.height / 2, ...size }
  return size.width > size.height ? placeBox(upright, ideal, outline, rings, placed) : null
}

function nearest([x, y]: Point, { width, height }: Outline): Point[] {
  const points: Point[] = []
  for (let across = 1; across < GRID; across++)
    for (let down = 1; down < GRID; down++) points.push([(width * across) / GRID, (height * down) / GRID])
  const far = ([px, py]: Point) => Math.hypot(px - x, py - y)
  return points.sort((one, other) => far(one) - far(other))
}

function grown({ x, y, width, height }: Box, by: number): Box {
  return { x: x - by, y: y - by, width: width + 2 * by, height: height + 2 * by }
}

function meet(one: Box, other: Box): boolean {
  return (
    one.x < other.x + other.width &&
    other.x < one.x + one.width &&
    one.y < other.y + other.height &&
    other.y < one.y + one.height
  )
}

function pathOf({ x, y, width, height, round }: PlacedCutOut): string {
  if (round) return ellipsePath(x + width / 2, y + height / 2, width / 2, height / 2)
  const [left, top, right, foot] = [x, y, x + width, y + height].map(pathNumber)
  return `M${left} ${top}H${right}V${foot}H${left}Z`
}
