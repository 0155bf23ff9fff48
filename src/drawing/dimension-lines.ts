import { escapeXml, num, textWidth } from './svg.ts'

export type Side = 'above' | 'below' | 'left' | 'right'
export type Place = Side | 'inside'
export type Point = [x: number, y: number]

/** Height of a figure on a drawing, in CSS pixels at the narrowest column; never under 12. */
export const FIGURE = 13
const OFFSET = 15
const LANE = 24
const GAP = 7
const SIDE_GAP = 10

export interface Labelled {
  from: Point
  to: Point
  place: Place
  label: string
}

/** How much room the dimension lines of a side need beyond the bed. */
export function roomBeside(side: Side, lines: Labelled[], wall: number): number {
  const here = lines.filter(line => line.place === side)
  if (here.length === 0) return wall + 1
  if (side === 'above' || side === 'below') return wall + OFFSET + LANE * here.length - 4
  return wall + OFFSET + here.reduce((sum, line) => sum + laneWidth(line), 0)
}

function laneWidth(line: Labelled): number {
  return textWidth(line.label, FIGURE) + SIDE_GAP + 4
}

/**
 * Draws the dimension lines: outside ones in lanes beyond the bed's box, each with its two witness lines, slanting
 * ticks, and its figure; the shortest stands nearest. `box` is the bed's in drawing units, `walls` what a wall takes on each side.
 */
export function drawDimensions(
  lines: Labelled[],
  box: { left: number; top: number; right: number; bottom: number },
  walls: Record<Side, number>,
  width: number,
): string {
  const taken: Record<Side, number> = { above: 0, below: 0, left: 0, right: 0 }
  return [...lines]
    .sort((a, b) => span(a) - span(b))
    .map(line => {
      if (line.place === 'inside') return insideLine(line)
      const away = walls[line.place] + OFFSET + taken[line.place]
      const level = line.place === 'above' || line.place === 'below'
      taken[line.place] += level ? LANE : laneWidth(line)
      if (level) return levelLine(line, line.place === 'above' ? box.top - away : box.bottom + away, width)
      return uprightLine(line, line.place === 'left' ? box.left - away : box.right + away)
    })
    .join('')
}

function span({ from, to }: Labelled): number {
  return Math.hypot(to[0] - from[0], to[1] - from[1])
}

function levelLine({ from, to, place, label }: Labelled, y: number, width: number): string {
  const out = place === 'above' ? -4 : 4
  const half = textWidth(label, FIGURE) / 2
  const x = Math.min(Math.max((from[0] + to[0]) / 2, half), width - half)
  const witness = [from, to].map(([px, py]) => `M${num(px)} ${num(py)}V${num(y + out)}`).join('')
  return (
    `<path class="witness" d="${witness}M${num(from[0])} ${num(y)}H${num(to[0])}"/>` +
    tick(from[0], y) +
    tick(to[0], y) +
    figure(x, place === 'above' ? y - GAP : y + GAP + FIGURE - 3, 'middle', label)
  )
}

function uprightLine({ from, to, place, label }: Labelled, x: number): string {
  const out = place === 'left' ? -4 : 4
  const witness = [from, to].map(([px, py]) => `M${num(px)} ${num(py)}H${num(x + out)}`).join('')
  const side = place === 'left' ? -SIDE_GAP : SIDE_GAP
  return (
    `<path class="witness" d="${witness}M${num(x)} ${num(from[1])}V${num(to[1])}"/>` +
    tick(x, from[1]) +
    tick(x, to[1]) +
    figure(x + side, (from[1] + to[1]) / 2 + FIGURE * 0.36, place === 'left' ? 'end' : 'start', label)
  )
}

function insideLine({ from, to, label }: Labelled): string {
  const [x, y] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]
  const width = textWidth(label, FIGURE) + 4
  return (
    `<path class="witness witness-inside" d="M${num(from[0])} ${num(from[1])}L${num(to[0])} ${num(to[1])}"/>${tick(...from)}${tick(...to)}` +
    `<rect class="label-ground" x="${num(x - width / 2)}" y="${num(y - FIGURE * 0.75)}" width="${num(width)}" height="${num(FIGURE * 1.5)}"/>` +
    figure(x, y + FIGURE * 0.36, 'middle', label)
  )
}

function tick(x: number, y: number): string {
  return `<path class="tick-mark" d="M${num(x - 3.5)} ${num(y + 3.5)}L${num(x + 3.5)} ${num(y - 3.5)}"/>`
}

/** A figure on the drawing. */
export function figure(x: number, y: number, anchor: 'start' | 'middle' | 'end', label: string): string {
  return `<text x="${num(x)}" y="${num(y)}" font-size="${FIGURE}" text-anchor="${anchor}">${escapeXml(label)}</text>`
}
