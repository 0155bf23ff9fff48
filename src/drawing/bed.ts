import type { Outline } from '../estimate/shapes/outline.ts'
import { type CutOutWords, drawCutOuts, groundAround, groundOf } from './cut-outs.ts'
import {
  drawDimensions,
  FIGURE,
  figure,
  type Labelled,
  type Point,
  roomBeside,
  type Side,
} from './dimension-lines.ts'
import { type Hatch, hatchPattern } from './hatches.ts'
import { drawScaleBar } from './scale-bar.ts'
import { drawSection, type SectionLayer } from './section.ts'
import { escapeXml, num, svg, textWidth } from './svg.ts'

const WIDTH = 288
const TALLEST = 190
/** However large its neighbours are, a bed drawn to their scale stays visible. */
const SMALLEST = 72
const WALL = 9
const SIDES: Side[] = ['above', 'below', 'left', 'right']

export interface BedDrawing {
  hatch: Hatch
  /** What the drawing shows, in words, for those who don't see it. */
  title: string
  /** The figure at each size's dimension line, as `{ length: '20 ft' }`; a size without one is left out. */
  sizes: Record<string, string>
  /** Unique on its page. */
  id: string
  unit?: string
  /** Drawing units per ft|m, so that several beds are drawn to one scale; its own largest when left out. */
  scale?: number
  /** The finish's colour, washed thinly under the hatching. */
  colour?: string
  /** Of what is cut out of it. */
  cutOuts?: CutOutWords
  /** What it is like cut through, from the top down; drawn where something lies beneath. */
  section?: SectionLayer[]
}

/** One bed to scale, with its dimension lines, as an SVG for a column at least 288 CSS pixels wide. */
export function drawBed(outline: Outline, options: BedDrawing): string {
  const { id, hatch, unit = 'ft' } = options
  const fit = fitOutline(outline, options.sizes)
  const wanted = Math.max(
    Math.min(options.scale ?? fit.scale, fit.scale),
    Math.min(fit.scale, SMALLEST / longest(outline)),
  )
  const scale = Math.min(wanted, fit.room(wanted))
  const lines = fit.place(scale)
  const box = boxOf(outline, lines, fit, scale)
  const at = ([x, y]: Point): Point => [box.left + x * scale, box.top + y * scale]
  const placed = lines.map(line => ({ ...line, from: at(line.from), to: at(line.to) }))
  const bottom = box.bottom + roomBeside('below', lines, fit.walls.below)
  const middle = outline.notional ? [middleGround(box, options.sizes.area)] : []
  const cut = drawCutOuts(
    outline,
    options.cutOuts ?? { figures: [], words: '' },
    { left: box.left, top: box.top, scale, bottom: bottom + 24, width: WIDTH },
    [...groundOf(placed), ...middle],
  )
  const foot = bottom + 24 + cut.height
  const under = options.section && drawSection(options.section, { id, top: foot + 12, width: WIDTH })
  const body = [
    `<defs>${hatchPattern(hatch, `${id}-hatch`, 'hatch', scale)}${outline.wall ? wallPattern(id) : ''}${under?.defs ?? ''}</defs>`,
    `<g transform="translate(${num(box.left)} ${num(box.top)}) scale(${scale.toPrecision(8)})">${drawSurface(outline, options)}</g>`,
    outline.wall ? drawWall(outline, at, id) : '',
    drawDimensions(placed, box, fit.walls, WIDTH),
    outline.notional ? drawMiddle(box, options.sizes.area) : '',
    drawScaleBar(Math.min(box.left, WIDTH - 160), bottom + 12, scale, unit),
    cut.body,
    under?.body ?? '',
  ]
  return svg({
    id,
    title: options.title,
    width: WIDTH,
    height: under ? foot + 12 + under.height : foot,
    classes: 'drawing',
    body: body.join(''),
  })
}

/** The largest scale at which every one of these beds fits its drawing. */
export function commonScale(beds: { outline: Outline; sizes: Record<string, string> }[]): number {
  return Math.min(...beds.map(bed => fitOutline(bed.outline, bed.sizes).scale))
}

interface Fit {
  scale: number
  walls: Record<Side, number>
  /** The dimension lines at a scale: an inside one whose figure has no room there moves out. */
  place(scale: number): Labelled[]
  /** The largest scale at which the lines as they stand at a scale have their room. */
  room(scale: number): number
}

function fitOutline(outline: Outline, sizes: Record<string, string>): Fit {
  const walls = wallRoom(outline)
  const labelled = outline.dimensions.flatMap(({ size, from, to, place }): Labelled[] => {
    const label = sizes[size]
    return label && !(outline.notional && size === 'area') ? [{ from, to, place, label }] : []
  })
  const place = (scale: number) => labelled.map(line => moveOut(line, outline.width, scale))
  const scaleFor = (lines: Labelled[]) => {
    const beside = roomBeside('left', lines, walls.left) + roomBeside('right', lines, walls.right)
    return Math.min((WIDTH - beside) / outline.width, TALLEST / outline.height)
  }
  const room = (scale: number) => scaleFor(place(scale))
  const first = scaleFor(labelled)
  return { scale: Math.min(first, room(first)), walls, place, room }
}

function moveOut(line: Labelled, width: number, scale: number): Labelled {
  if (line.place !== 'inside') return line
  const across = Math.abs(line.to[0] - line.from[0]) * scale
  const down = Math.abs(line.to[1] - line.from[1]) * scale
  if (across >= down) return across >= textWidth(line.label, FIGURE) + 28 ? line : { ...line, place: 'below' }
  const broad = width * scale >= textWidth(line.label, FIGURE) * 2 + 8
  return down >= FIGURE * 4 && broad ? line : { ...line, place: 'right' }
}

function boxOf(outline: Outline, lines: Labelled[], fit: Fit, scale: number) {
  const [width, height] = [outline.width * scale, outline.height * scale]
  const isLevel = (line: Labelled) => line.place === 'above' || line.place === 'below'
  const overhang = lines
    .filter(isLevel)
    .map(line => textWidth(line.label, FIGURE) / 2 - ((line.from[0] + line.to[0]) / 2) * scale)
  const overhead = lines
    .filter(line => !isLevel(line))
    .map(line => FIGURE - ((line.from[1] + line.to[1]) / 2) * scale)
  const left = Math.max(roomBeside('left', lines, fit.walls.left), ...overhang)
  const top = Math.max(roomBeside('above', lines, fit.walls.above), ...overhead)
  return { left, top, right: left + width, bottom: top + height }
}

function drawSurface(outline: Outline, { id, colour }: BedDrawing): string {
  const d = escapeXml(outline.path)
  const wash =
    colour && /^#[0-9a-f]{6}$/i.test(colour)
      ? `<path class="bed-wash" d="${d}" fill="${colour}" fill-rule="evenodd"/>`
      : ''
  const edge = outline.notional ? 'bed-edge bed-edge-notional' : 'bed-edge'
  return `${wash}<path class="${edge}" d="${d}" fill="url(#${id}-hatch)" fill-rule="evenodd" vector-effect="non-scaling-stroke"/>`
}

function wallRoom(outline: Outline): Record<Side, number> {
  const side = outline.wall ? wallSide(outline, outline.wall) : null
  return Object.fromEntries(SIDES.map(each => [each, each === side ? WALL : 0])) as Record<Side, number>
}

function wallSide(outline: Outline, [x1, y1, x2, y2]: NonNullable<Outline['wall']>): Side {
  if (y1 === y2) return y1 < outline.height / 2 ? 'above' : 'below'
  return x1 + x2 < outline.width ? 'left' : 'right'
}

function wallPattern(id: string): string {
  return (
    `<pattern id="${id}-wall" patternUnits="userSpaceOnUse" width="6" height="6">` +
    `<path class="wall-hatch" d="M-1 1L1 -1M0 6L6 0M5 7L7 5"/></pattern>`
  )
}

function drawWall(outline: Outline, at: (point: Point) => Point, id: string): string {
  const wall = outline.wall!
  const side = wallSide(outline, wall)
  const [[x1, y1], [x2, y2]] = [at([wall[0], wall[1]]), at([wall[2], wall[3]])]
  const [left, top] = [
    Math.min(x1, x2) - (side === 'left' ? WALL : 0),
    Math.min(y1, y2) - (side === 'above' ? WALL : 0),
  ]
  const level = side === 'above' || side === 'below'
  const [width, height] = level ? [Math.abs(x2 - x1), WALL] : [WALL, Math.abs(y2 - y1)]
  return (
    `<rect x="${num(left)}" y="${num(top)}" width="${num(width)}" height="${num(height)}" fill="url(#${id}-wall)"/>` +
    `<path class="wall" d="M${num(x1)} ${num(y1)}L${num(x2)} ${num(y2)}"/>`
  )
}

function drawMiddle(
  box: { left: number; top: number; right: number; bottom: number },
  label: string | undefined,
): string {
  if (!label) return ''
  const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2]
  const width = textWidth(label, FIGURE) + 8
  if (width > box.right - box.left - 12) return figure(box.right + 10, y + FIGURE * 0.36, 'start', label)
  return (
    `<rect class="label-ground" x="${num(x - width / 2)}" y="${num(y - 12)}" width="${num(width)}" height="24"/>` +
    figure(x, y + FIGURE * 0.36, 'middle', label)
  )
}

function middleGround(box: Parameters<typeof drawMiddle>[0], label = '') {
  return groundAround((box.left + box.right) / 2, (box.top + box.bottom) / 2, label)
}

function longest(outline: Outline): number {
  return Math.max(outline.width, outline.height)
}
