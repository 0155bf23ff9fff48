import { roundLength } from './scale-bar.ts'
import { escapeXml, num, svg, textWidth } from './svg.ts'

const WIDTH = 288
const LEFT = 0.5
const RIGHT = 282
const BAND = 30
const RULER = 41
const SMALL = 14
const LARGE = 17

export interface RangeDrawing {
  low: number
  likely: number
  high: number
  /** The three as money. */
  labels: { low: string; likely: string; high: string }
  /** The range in words, all three figures in it: it is what a screen reader says. */
  title: string
  /** Unique on its page. */
  id: string
}

/** A price range over a ruler that begins at nothing, so that a narrower range is seen to be narrower. */
export function drawRange({ low, likely, high, labels, title, id }: RangeDrawing): string {
  const most = Math.max(high * 1.06, 1)
  const at = (value: number) => LEFT + (value / most) * (RIGHT - LEFT)
  const one = low === high
  const ends = one ? [] : endLabels(at(low), at(high), labels.low, labels.high)
  const body = [
    text(clamped(at(likely), labels.likely, LARGE), LARGE, 'range-likely', labels.likely, LARGE),
    ruler(most, at),
    one
      ? ''
      : `<rect class="range-band" x="${num(at(low))}" y="${BAND}" width="${num(at(high) - at(low))}" height="8"/>`,
    one
      ? ''
      : `<path class="range-end" d="M${num(at(low))} ${BAND - 3}V${RULER + 9}M${num(at(high))} ${BAND - 3}V${RULER + 9}"/>`,
    `<path class="range-mark" d="M${num(at(likely))} ${RULER - 1}l-5 -9h10z"/><path class="range-end" d="M${num(at(likely))} ${LARGE + 6}V${RULER}"/>`,
    ...ends.map(
      end =>
        `<path class="witness" d="M${num(end.mark)} ${RULER + 9}L${num(end.x)} ${num(end.y - SMALL)}"/>${text(end.x, end.y, 'range-figure-end', end.label, SMALL)}`,
    ),
  ]
  const bottom = Math.max(RULER + 10, ...ends.map(end => end.y + 6))
  return svg({ id, title, width: WIDTH, height: bottom, classes: 'drawing range-bar', body: body.join('') })
}

interface EndLabel {
  mark: number
  x: number
  y: number
  label: string
}

/** Low and high under the ruler: pushed apart where they would touch, one under the other where the width is too small. */
function endLabels(low: number, high: number, lowLabel: string, highLabel: string): EndLabel[] {
  const y = RULER + 26
  const apart = (textWidth(lowLabel, SMALL) + textWidth(highLabel, SMALL)) / 2 + 12
  const [least, most] = [textWidth(lowLabel, SMALL) / 2, WIDTH - textWidth(highLabel, SMALL) / 2]
  let [left, right] = [clamped(low, lowLabel, SMALL), clamped(high, highLabel, SMALL)]
  if (right - left < apart) {
    left = Math.max(Math.min((left + right - apart) / 2, most - apart), least)
    right = left + apart
  }
  const stacked = right > most
  return [
    { mark: low, x: left, y, label: lowLabel },
    { mark: high, x: stacked ? most : right, y: stacked ? y + 20 : y, label: highLabel },
  ]
}

function ruler(most: number, at: (value: number) => number): string {
  const step = roundLength(most / 5)
  const parts: string[] = []
  for (let from = 0; from < most; from += step) {
    const [left, right] = [at(from), at(Math.min(from + step, most))]
    const filled = Math.round(from / step) % 2 === 0 ? 'scale-filled' : 'scale-empty'
    parts.push(
      `<rect class="${filled}" x="${num(left)}" y="${RULER}" width="${num(right - left)}" height="5"/>`,
    )
  }
  return parts.join('')
}

function clamped(x: number, label: string, size: number): number {
  const half = textWidth(label, size) / 2
  return Math.min(Math.max(x, half), WIDTH - half)
}

function text(x: number, y: number, classes: string, label: string, size: number): string {
  return `<text class="${classes}" x="${num(x)}" y="${num(y)}" font-size="${size}" text-anchor="middle">${escapeXml(label)}</text>`
}
