import type { Outline } from '../estimate/shapes/outline.ts'
import { FIGURE, figure, type Labelled } from './dimension-lines.ts'
import { textWidth } from './svg.ts'

const LINE = 18

/** What is said of cut-outs: the figure of each kind, and all of them in words for under the drawing. */
export interface CutOutWords {
  figures: string[]
  words: string
}

interface Ground {
  left: number
  top: number
  right: number
  bottom: number
}

/**
 * Figures of the holes in a bed drawn from its box's corner at this scale: inside a hole where its figure has room and
 * no other figure stands; when any has none, the words go under the drawing, from `bottom` down.
 * @returns the markup, and how much taller it makes the drawing
 */
export function drawCutOuts(
  outline: Outline,
  { figures, words }: CutOutWords,
  at: { left: number; top: number; scale: number; bottom: number; width: number },
  others: Ground[],
): { body: string; height: number } {
  const holes = outline.cutOuts ?? []
  if (holes.length === 0) return { body: '', height: 0 }
  let unsaid = false
  const inside = holes.map(hole => {
    const label = figures[hole.of] ?? ''
    const x = at.left + (hole.x + hole.width / 2) * at.scale
    const y = at.top + (hole.y + hole.height / 2) * at.scale
    const [across, down] = [textWidth(label, FIGURE) / 2 + 2, FIGURE / 2 + 3]
    const [roomAcross, roomDown] = [(hole.width * at.scale) / 2, (hole.height * at.scale) / 2]
    const fits = hole.round
      ? Math.hypot(across, down) <= roomAcross
      : across <= roomAcross && down <= roomDown
    const ground = { left: x - across, right: x + across, top: y - down, bottom: y + down }
    if (fits && !others.some(other => meet(ground, other)))
      return figure(x, y + FIGURE * 0.36, 'middle', label)
    unsaid = true
    return ''
  })
  const lines = unsaid ? wrapped(words, at.width) : []
  const under = lines.map((line, index) => figure(0, at.bottom + FIGURE + index * LINE, 'start', line))
  return { body: [...inside, ...under].join(''), height: lines.length * LINE }
}

/** The ground that the figures of inside dimension lines take, already in drawing units. */
export function groundOf(lines: Labelled[]): Ground[] {
  return lines
    .filter(line => line.place === 'inside')
    .map(({ from, to, label }) => groundAround((from[0] + to[0]) / 2, (from[1] + to[1]) / 2, label))
}

/** The ground of a figure in the middle of something. */
export function groundAround(x: number, y: number, label: string): Ground {
  const half = textWidth(label, FIGURE) / 2 + 4
  return { left: x - half, right: x + half, top: y - 12, bottom: y + 12 }
}

function meet(one: Ground, other: Ground): boolean {
  return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom
}

function wrapped(words: string, width: number): string[] {
  const lines: string[] = []
  for (const word of words.split(' ')) {
    const longer = lines.length > 0 ? `${lines.at(-1)} ${word}` : word
    if (lines.length > 0 && textWidth(longer, FIGURE) <= width) lines[lines.length - 1] = longer
    else lines.push(word)
  }
  return lines
}
