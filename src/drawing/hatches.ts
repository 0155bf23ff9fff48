import { num } from './svg.ts'
import type { Tile } from './tile.ts'

export type Hatch = 'shreds' | 'chips' | 'straw' | 'dots' | 'pebbles'

/** One mark of a hatching: where its middle is in the tile, how far it is turned (degrees), how large it is. */
type Mark = [x: number, y: number, turn: number, size: number]

interface Hatching {
  width: number
  height: number
  marks: Mark[]
  draw: (mark: Mark) => string
}

const HATCHINGS: Record<Hatch, Hatching> = {
  shreds: {
    width: 32,
    height: 32,
    marks: [
      [3, 5, 25, 7],
      [11, 3, -50, 6],
      [20, 6, 10, 8],
      [28, 4, 70, 6],
      [6, 13, -20, 8],
      [15, 12, 62, 6],
      [24, 14, -35, 7],
      [31, 12, 15, 6],
      [2, 22, 50, 7],
      [10, 21, -8, 8],
      [18, 20, -66, 6],
      [26, 22, 32, 8],
      [6, 29, 4, 7],
      [14, 28, 42, 6],
      [22, 29, -14, 8],
      [30, 28, -58, 6],
    ],
    draw: stroke,
  },
  chips: {
    width: 36,
    height: 36,
    marks: [
      [5, 6, 20, 8],
      [16, 5, -35, 9],
      [28, 7, 65, 8],
      [10, 17, 80, 9],
      [22, 17, 10, 8],
      [33, 19, -25, 8],
      [4, 28, -15, 8],
      [15, 29, 40, 8],
      [26, 29, -60, 9],
    ],
    draw: chip,
  },
  straw: {
    width: 44,
    height: 28,
    marks: [
      [8, 3, -14, 26],
      [30, 5, 12, 28],
      [16, 9, 6, 30],
      [38, 12, -18, 24],
      [6, 15, 16, 24],
      [24, 17, -7, 30],
      [40, 21, 9, 26],
      [12, 23, -12, 28],
      [30, 26, 4, 26],
    ],
    draw: stroke,
  },
  dots: {
    width: 24,
    height: 24,
    marks: [
      [3, 4, 0, 1.8],
      [10, 2, 0, 2.6],
      [18, 5, 0, 1.8],
      [6, 11, 0, 2.4],
      [14, 10, 0, 1.8],
      [21, 13, 0, 2.6],
      [2, 18, 0, 1.8],
      [10, 18, 0, 2.2],
      [17, 20, 0, 1.6],
    ],
    draw: dot,
  },
  pebbles: {
    width: 36,
    height: 32,
    marks: [
      [6, 6, 10, 11],
      [18, 5, -20, 9],
      [30, 7, 30, 11],
      [11, 16, -35, 9],
      [23, 16, 15, 11],
      [34, 18, 70, 8],
      [4, 25, 40, 9],
      [15, 27, 5, 11],
      [28, 27, -25, 9],
    ],
    draw: pebble,
  },
}

/**
 * The hatching of a finish as a pattern to fill with: `fill="url(#id)"`.
 * @param scale how much larger than the drawing's own unit the filled shape's unit is, so that marks keep their size
 */
export function hatchPattern(hatch: Hatch, id: string, classes = 'hatch', scale = 1): string {
  const { width, height } = HATCHINGS[hatch]
  const transform = scale === 1 ? '' : ` patternTransform="scale(${(1 / scale).toPrecision(8)})"`
  return (
    `<pattern id="${id}" patternUnits="userSpaceOnUse" width="${width}" height="${height}"${transform}>` +
    `<path class="${classes}" d="${pathOf(hatch)}"/></pattern>`
  )
}

const paths = new Map<Hatch, string>()

// The same for every bed and every page.
function pathOf(hatch: Hatch): string {
  const { width, height, marks, draw } = HATCHINGS[hatch]
  const path = paths.get(hatch) ?? marks.flatMap(mark => repeats(mark, width, height).map(draw)).join('')
  paths.set(hatch, path)
  return path
}

/** A finish to pick: its hatching over its colour. */
export function swatchTile(hatch: Hatch, colour: string, id: string): Tile {
  const classes = isDark(colour) ? 'hatch hatch-on-dark' : 'hatch hatch-on-light'
  return {
    classes: 'swatch',
    width: 72,
    height: 44,
    patterns: `<defs>${hatchPattern(hatch, `${id}-hatch`, classes)}</defs>`,
    body:
      `<rect x="0.75" y="0.75" width="70.5" height="42.5" fill="${/^#[0-9a-f]{6}$/i.test(colour) ? colour : '#8a7f68'}"/>` +
      `<rect class="swatch-edge" x="0.75" y="0.75" width="70.5" height="42.5" fill="url(#${id}-hatch)"/>`,
  }
}

/** A mark that crosses the tile's edge is drawn again on the other side, or the seam would show. */
function repeats([x, y, turn, size]: Mark, width: number, height: number): Mark[] {
  const reach = size / 2 + 1
  const across = [0, x < reach ? width : 0, x > width - reach ? -width : 0]
  const down = [0, y < reach ? height : 0, y > height - reach ? -height : 0]
  return [...new Set(across)].flatMap(dx =>
    [...new Set(down)].map((dy): Mark => [x + dx, y + dy, turn, size]),
  )
}

function stroke([x, y, turn, size]: Mark): string {
  const [dx, dy] = turned(size / 2, 0, turn)
  return `M${num(x - dx)} ${num(y - dy)}L${num(x + dx)} ${num(y + dy)}`
}

function chip([x, y, turn, size]: Mark): string {
  const corners = [
    [-0.5, -0.2],
    [0.35, -0.35],
    [0.5, 0.15],
    [-0.3, 0.38],
  ] as const
  const points = corners
    .map(([cx, cy]) => turned(cx * size, cy * size, turn))
    .map(([dx, dy]) => `${num(x + dx)} ${num(y + dy)}`)
  return `M${points.join('L')}Z`
}

function dot([x, y, , size]: Mark): string {
  return ellipse(x, y, size / 2, size / 2, 0)
}

function pebble([x, y, turn, size]: Mark): string {
  return ellipse(x, y, size / 2, size * 0.36, turn)
}

function ellipse(x: number, y: number, rx: number, ry: number, turn: number): string {
  const [dx, dy] = turned(rx, 0, turn)
  const arc = `A${num(rx)} ${num(ry)} ${turn} 1 0`
  return `M${num(x - dx)} ${num(y - dy)}${arc} ${num(x + dx)} ${num(y + dy)}${arc} ${num(x - dx)} ${num(y - dy)}Z`
}

function turned(x: number, y: number, degrees: number): [number, number] {
  const angle = (degrees * Math.PI) / 180
  return [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle)]
}

function isDark(colour: string): boolean {
  const [red = 0, green = 0, blue = 0] = (colour.match(/[0-9a-f]{2}/gi) ?? []).map(
    pair => Number.parseInt(pair, 16) / 255,
  )
  return 0.2126 * red ** 2.2 + 0.7152 * green ** 2.2 + 0.0722 * blue ** 2.2 < 0.2
}
