import { setImmediate } from 'node:timers/promises'
import type { Language } from '../language/language.ts'
import { type DrawnSize, drawMarkup, sizeOf } from './draw.ts'
import type { AmountLine, Fact, Paper, PaperBed, PaperPart } from './paper.ts'
import { INK, RULE, Sheet, SOFT, type Structure, type Style } from './sheet.ts'

const TEXT: Style = { size: 11 }
const STRONG: Style = { size: 11, bold: true }
const SMALL: Style = { size: 9.5, color: SOFT }
const HEADING: Style = { size: 14, bold: true }
const OVER: Style = { size: 12, bold: true, color: SOFT }
const FIGURE: Style = { size: 20 }
const AMOUNT_WIDTH = 110
const GAP = 20
/** Points to a unit of a drawing, which is 288 wide; and where there are many beds. */
const DRAWN = { usual: 0.75, many: 0.4 }
/** More beds than this are written close together. */
const FEW_BEDS = 12
/** A text of more lines than this is written small. */
const LONG_TEXT = 60
/** A heading never stands alone at the end of a page. */
const UNDER_HEADING = 44

/** Makes the PDF of a paper: tagged, its text selectable, its drawings as lines. */
export async function makePaper(paper: Paper): Promise<Buffer> {
  const sheet = new Sheet(paper)
  writeHead(sheet, paper)
  for (const part of paper.parts) await writePart(sheet, part)
  return sheet.finish(paper)
}

function writeHead(sheet: Sheet, { from, heading, about }: Paper): void {
  const within = sheet.section('Sect')
  const top = sheet.y
  const beside = from.logo ? drawLogo(sheet, from.logo, from.name, within) : { width: 0, bottom: top }
  const x = sheet.left + beside.width
  const width = sheet.width - beside.width
  sheet.write(from.name, { size: 16, bold: true }, { x, width, within })
  for (const line of from.lines) sheet.write(line, SMALL, { x, width, within })
  sheet.y = Math.max(sheet.y, beside.bottom) + 10
  sheet.rule(INK, 1)
  sheet.y += 16
  sheet.write(heading, { size: 22, bold: true }, { within, as: 'H1' })
  sheet.y += 4
  for (const line of about) sheet.write(line, TEXT, { within })
}

function drawLogo(
  { doc, left, y }: Sheet,
  jpeg: Buffer,
  alt: string,
  within: Structure,
): { width: number; bottom: number } {
  const { width, height } = (doc as unknown as OpensImages).openImage(jpeg)
  const scale = Math.min(120 / width, 56 / height)
  const size = { width: width * scale, height: height * scale }
  within.add(doc.struct('Figure', { alt }, () => void doc.image(jpeg, left, y, size)))
  return { width: size.width + 14, bottom: y + size.height }
}

async function writePart(sheet: Sheet, part: PaperPart): Promise<void> {
  const within = sheet.section('Sect')
  sheet.y += 18
  const style = part.kind === 'beds' && part.beds.length > FEW_BEDS ? CLOSE : WIDE
  const first =
    part.kind === 'beds' && part.beds[0] ? placeBed(sheet, part.beds[0], style).height : UNDER_HEADING
  sheet.keep(sheet.heightOf(part.heading, HEADING) + first + 4)
  sheet.write(part.heading, HEADING, { within, as: 'H2' })
  sheet.y += 4
  if (part.kind === 'text') {
    const words = sheet.section('Sect', within, langOf(part.language))
    if (part.figure) sheet.write(part.figure, FIGURE, { within: words })
    for (const line of part.lines) writeParagraph(sheet, line, words)
  }
  if (part.kind === 'amounts') writeAmounts(sheet, part, within)
  if (part.kind === 'beds')
    for (const bed of part.beds) {
      writeBed(sheet, bed, style, within)
      // Of hundreds of beds nobody else waits for all.
      await setImmediate()
    }
  if (part.kind === 'facts') for (const fact of part.facts) writeFact(sheet, fact, within)
}

function writeFact(sheet: Sheet, { what, said, language }: Fact, within: Structure): void {
  sheet.keep(sheet.heightOf(what, STRONG) + 2 * STRONG.size)
  sheet.write(what, STRONG, { within })
  writeParagraph(sheet, said, sheet.section('Sect', within, langOf(language)))
}

function langOf(language: Language | undefined): { lang?: string } {
  return language ? { lang: language } : {}
}

function writeParagraph(sheet: Sheet, text: string, within: Structure): void {
  sheet.write(text, text.split('\n').length > LONG_TEXT ? { size: 9 } : TEXT, { within })
  sheet.y += 4
}

function writeAmounts(sheet: Sheet, part: PaperPart & { kind: 'amounts' }, within: Structure): void {
  const table = sheet.section('Table', within)
  for (const line of part.lines) writeAmount(sheet, line, table, line.heads ? STRONG : TEXT)
  const total = { ...part.total, note: '' }
  writeAmount(sheet, total, table, { size: 13, bold: true })
  if (!part.note) return
  sheet.y += 4
  sheet.write(part.note, SMALL, { within })
}

// A row is never cut: it goes to the next page as a whole.
function writeAmount(
  sheet: Sheet,
  { label, note, amount }: AmountLine,
  table: Structure,
  style: Style,
): void {
  const width = sheet.width - AMOUNT_WIDTH - GAP
  const noteHeight = note ? sheet.heightOf(note, SMALL, width) : 0
  const height = Math.max(
    sheet.heightOf(label, style, width) + noteHeight,
    sheet.heightOf(amount, style, AMOUNT_WIDTH),
  )
  sheet.keep(height + 9)
  sheet.rule(style.bold ? INK : RULE, style.bold ? 1 : 0.5)
  const row = sheet.section('TR', table)
  const what = sheet.section('TH', row)
  sheet.y += 4
  const top = sheet.y
  sheet.write(label, style, { width, within: what })
  sheet.write(note ?? '', SMALL, { width, within: what })
  const bottom = sheet.y
  sheet.y = bottom - top > height + 1 ? sheet.y : top
  const x = sheet.left + sheet.width - AMOUNT_WIDTH
  sheet.write(amount, style, { x, width: AMOUNT_WIDTH, align: 'right', within: row, as: 'TD' })
  sheet.y = Math.max(sheet.y, bottom) + 4
}

/** What the types of the library leave out. */
interface OpensImages {
  openImage(jpeg: Buffer): { width: number; height: number }
}

/** How a bed is written: wide apart, a line for each thing to know, or close together. */
interface BedStyle {
  title: Style
  text: Style
  over: Style
  scale: number
  gap: number
  linesOf: (lines: string[]) => string[]
}

const WIDE: BedStyle = {
  ...{ title: STRONG, text: TEXT, over: OVER, scale: DRAWN.usual, gap: GAP },
  linesOf: lines => lines,
}
const CLOSE: BedStyle = {
  ...{ title: { size: 9, bold: true }, text: { size: 9 }, over: { size: 10, bold: true, color: SOFT } },
  ...{ scale: DRAWN.many, gap: 8 },
  linesOf: lines => [lines.join(' · ')],
}

interface PlacedBed {
  size: DrawnSize
  /** Of the words beside the drawing; the whole width where they would be too long for a page, and stand below it. */
  width: number
  isBeside: boolean
  height: number
}

function placeBed(sheet: Sheet, { title, lines, drawing }: PaperBed, style: BedStyle): PlacedBed {
  const drawn = drawing ? sizeOf(drawing) : { width: 0, height: 0, title: '' }
  const size = { ...drawn, width: drawn.width * style.scale, height: drawn.height * style.scale }
  const beside = sheet.width - (drawing ? size.width + GAP : 0)
  const words = style
    .linesOf(lines)
    .reduce(
      (sum, line) => sum + sheet.heightOf(line, style.text, beside),
      sheet.heightOf(title, style.title, beside),
    )
  const isBeside = words + GAP < sheet.tallest
  const height = Math.max(size.height, isBeside ? words : 0) + style.gap
  return { size, width: isBeside ? beside : sheet.width, isBeside, height }
}

// A drawing with the words beside it stays on one page.
function writeBed(sheet: Sheet, bed: PaperBed, style: BedStyle, within: Structure): void {
  const { size, width, isBeside, height } = placeBed(sheet, bed, style)
  const { title, lines, drawing } = bed
  const part = sheet.section('Sect', within)
  const over = bed.over ? sheet.heightOf(bed.over, style.over) + style.gap / 3 : 0
  sheet.keep(height + over)
  if (bed.over) {
    sheet.y += style.gap / 3
    sheet.write(bed.over, style.over, { within: part, as: 'H3' })
  }
  const top = sheet.y + style.gap / 3
  const x = isBeside ? sheet.left + sheet.width - size.width : sheet.left
  if (drawing && !isBeside)
    drawFigure(sheet, drawing, { alt: size.title, x, y: top, scale: style.scale }, part)
  sheet.y = isBeside ? top : top + size.height + 10
  sheet.write(title, style.title, { width, within: part, as: 'H4' })
  for (const line of style.linesOf(lines)) sheet.write(line, style.text, { width, within: part })
  if (drawing && isBeside) {
    drawFigure(sheet, drawing, { alt: size.title, x, y: top, scale: style.scale }, part)
    sheet.y = Math.max(sheet.y, top + size.height)
  }
  sheet.y += style.gap / 2
}

function drawFigure(
  { doc }: Sheet,
  drawing: string,
  { alt, ...at }: { alt: string; x: number; y: number; scale: number },
  within: Structure,
): void {
  within.add(doc.struct('Figure', { alt }, () => drawMarkup(doc, drawing, at)))
}
