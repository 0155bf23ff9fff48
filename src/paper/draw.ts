import { readMarkup, type Shape } from './markup.ts'
import { patternOf } from './pattern.ts'
import { INK, RULE } from './sheet.ts'
import { settable } from './typeface.ts'

/** How each class of the drawings looks on paper: its line, its fill, both in the drawing's unit. */
const LOOKS: Record<
  string,
  { stroke?: string; width?: number; fill?: string; opacity?: number; dash?: number[] }
> = {
  'bed-edge': { stroke: INK, width: 1.5 },
  'bed-edge-notional': { dash: [5, 4] },
  'bed-wash': { opacity: 0.22 },
  wall: { stroke: INK, width: 3 },
  witness: { stroke: RULE, width: 1 },
  'witness-inside': { stroke: INK },
  'tick-mark': { stroke: INK, width: 1.25 },
  'label-ground': { fill: '#ffffff' },
  'scale-filled': { stroke: INK, width: 1, fill: INK },
  'scale-empty': { stroke: INK, width: 1, fill: '#ffffff' },
  'section-sheet': { stroke: INK, width: 2, dash: [6, 3] },
  'section-ground': { stroke: RULE, width: 2 },
}
const MARKS: Record<string, string> = { hatch: '#86795f', 'wall-hatch': INK }

export interface DrawnSize {
  width: number
  height: number
  /** What it shows, in words. */
  title: string
}

/** How large a drawing of src/drawing is in its own unit, and what it shows. */
export function sizeOf(markup: string): DrawnSize {
  const { width, height, title } = readMarkup(markup)
  return { width, height, title }
}

/** Draws markup of src/drawing with its corner at x, y, so many points to its unit. Its words are text, its lines are lines. */
export function drawMarkup(
  doc: PDFKit.PDFDocument,
  markup: string,
  { x, y, scale }: { x: number; y: number; scale: number },
): void {
  const { shapes, patterns } = readMarkup(markup)
  doc.save().translate(x, y).scale(scale).lineJoin('round').lineCap('round')
  for (const shape of shapes) {
    if (shape.kind === 'text') drawText(doc, shape)
    else drawShape(doc, shape, patterns)
  }
  doc.restore()
}

function drawText(doc: PDFKit.PDFDocument, { text, x, y, size, anchor }: Shape & { kind: 'text' }): void {
  doc.font('plain').fontSize(size).fillColor(INK)
  const words = settable(text)
  const width = doc.widthOfString(words)
  const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2
  doc.text(words, left, y, { lineBreak: false, baseline: 'alphabetic' })
}

function drawShape(
  doc: PDFKit.PDFDocument,
  { path, classes, fill, within, evenOdd }: Shape & { kind: 'path' },
  patterns: ReturnType<typeof readMarkup>['patterns'],
): void {
  const look = Object.assign({}, ...classes.map(one => LOOKS[one])) as (typeof LOOKS)[string]
  const rule = evenOdd ? 'even-odd' : 'non-zero'
  doc.save()
  if (within) doc.translate(within.x, within.y).scale(within.scale)
  const hatch = fill?.startsWith('url(#') ? patterns.get(fill.slice(5, -1)) : undefined
  if (hatch) {
    const pattern = patternOf(doc, hatch)
    // A pattern is laid in the unit that holds when its color is set.
    doc.save().scale(hatch.scale)
    doc.lineWidth(1).fillColor([pattern, MARKS[hatch.classes] ?? INK] as never)
    doc.scale(1 / hatch.scale)
    doc.path(path).fill(rule)
    doc.restore()
  }
  const plain = fill && !hatch && fill !== 'none' ? fill : look.fill
  if (plain)
    doc
      .save()
      .fillOpacity(look.opacity ?? 1)
      .path(path)
      .fill(plain, rule)
      .restore()
  if (look.stroke && look.width) {
    const unit = within?.scale ?? 1
    doc.lineWidth(look.width / unit)
    if (look.dash) doc.dash(look.dash[0]! / unit, { space: look.dash[1]! / unit })
    doc.path(path).stroke(look.stroke)
  }
  doc.restore()
}
