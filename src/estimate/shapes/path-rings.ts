export type Point = [x: number, y: number]

/** More corners than anybody sees in a drawing 288 pixels wide. */
const STEPS = 32

/** The closed lines of an outline's path (M, L, H, V, C, A, Z, all absolute), curves as chords. */
export function ringsOf(path: string): Point[][] {
  const rings: Point[][] = []
  for (const [, command, figures] of path.matchAll(/([MLHVCAZ])([^MLHVCAZ]*)/g)) {
    const numbers = figures!.trim().split(/[ ,]+/).filter(Boolean).map(Number)
    if (command === 'M') rings.push([[numbers[0]!, numbers[1]!]])
    else if (command !== 'Z') rings.at(-1)!.push(...pointsOf(command!, numbers, rings.at(-1)!.at(-1)!))
  }
  return rings
}

function pointsOf(command: string, numbers: number[], from: Point): Point[] {
  const [first, second] = numbers as [number, number]
  if (command === 'H') return [[first, from[1]]]
  if (command === 'V') return [[from[0], first]]
  if (command === 'C') return curve(from, numbers)
  return command === 'A' ? arc(from, numbers) : [[first, second]]
}

function curve([x0, y0]: Point, numbers: number[]): Point[] {
  const [x1, y1, x2, y2, x3, y3] = numbers as [number, number, number, number, number, number]
  const at = (t: number, a: number, b: number, c: number, d: number) =>
    (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t * t * c + t ** 3 * d
  return steps(t => [at(t, x0, x1, x2, x3), at(t, y0, y1, y2, y3)])
}

// SVG 2, appendix B.2.4, for an ellipse that isn't turned.
function arc([x0, y0]: Point, numbers: number[]): Point[] {
  const [rx, ry, , large, sweep, x1, y1] = numbers as [number, number, number, number, number, number, number]
  const [dx, dy] = [(x0 - x1) / (2 * rx), (y0 - y1) / (2 * ry)]
  const half = dx * dx + dy * dy
  const off = (large === sweep ? -1 : 1) * Math.sqrt(Math.max(0, 1 - half) / half)
  const [cx, cy] = [(x0 + x1) / 2 + off * dy * rx, (y0 + y1) / 2 - off * dx * ry]
  const start = Math.atan2((y0 - cy) / ry, (x0 - cx) / rx)
  const end = Math.atan2((y1 - cy) / ry, (x1 - cx) / rx)
  const turn = (sweep ? 1 : -1) * ((((sweep ? end - start : start - end) % TURN) + TURN) % TURN || TURN)
  return steps(t => [cx + rx * Math.cos(start + turn * t), cy + ry * Math.sin(start + turn * t)])
}

const TURN = 2 * Math.PI

function steps(at: (t: number) => Point): Point[] {
  return Array.from({ length: STEPS }, (_, step) => at((step + 1) / STEPS))
}

/** A box with its sides level and upright. */
export interface Box {
  x: number
  y: number
  width: number
  height: number
}

/** Whether the whole box lies between the lines (fill-rule evenodd), touching none. */
export function holdsBox(rings: Point[][], box: Box): boolean {
  let inside = false
  const [mx, my] = [box.x + box.width / 2, box.y + box.height / 2]
  for (const ring of rings) {
    for (const [index, [x1, y1]] of ring.entries()) {
      const [x2, y2] = ring[(index + 1) % ring.length]!
      if (crosses(x1, y1, x2, y2, box)) return false
      if (y1 > my !== y2 > my && mx < ((x2 - x1) * (my - y1)) / (y2 - y1) + x1) inside = !inside
    }
  }
  return inside
}

/** Whether a line meets a box (Liang and Barsky's clipping). */
function crosses(x1: number, y1: number, x2: number, y2: number, box: Box): boolean {
  let [enter, leave] = [0, 1]
  const [dx, dy] = [x2 - x1, y2 - y1]
  const sides: [number, number][] = [
    [-dx, x1 - box.x],
    [dx, box.x + box.width - x1],
    [-dy, y1 - box.y],
    [dy, box.y + box.height - y1],
  ]
  for (const [towards, room] of sides) {
    if (towards === 0) {
      if (room < 0) return false
    } else if (towards < 0) enter = Math.max(enter, room / towards)
    else leave = Math.min(leave, room / towards)
  }
  return enter <= leave
}
