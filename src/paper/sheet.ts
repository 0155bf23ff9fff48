import PDFDocument from 'pdfkit'
import type { Paper } from './paper.ts'
import { BOLD, PLAIN, settable } from './typeface.ts'

/** In points, 72 to the inch, as all sizes on paper are. */
const MARGIN = 54
const FOOT = 10
export const INK = '#22301f'
export const SOFT = '#50543f'
export const RULE = '#8a7f68'

export type Structure = PDFKit.PDFStructureElement

export interface Style {
  size: number
  bold?: boolean
  color?: string
}

interface Place {
  x?: number
  width?: number
  align?: 'left' | 'right'
  /** What it belongs to in the order of reading, and as which kind of element. */
  within: Structure
  as?: string
}

/** The pages of one paper while they are written, from the top down: everything goes where `y` is. */
export class Sheet {
  readonly doc: PDFKit.PDFDocument
  readonly root: Structure
  readonly left = MARGIN
  readonly width: number
  y = MARGIN

  constructor({ title, size, language, from, made }: Paper) {
    this.doc = new PDFDocument({
      size,
      margin: MARGIN,
      bufferPages: true,
      pdfVersion: '1.7',
      tagged: true,
      lang: language,
      displayTitle: true,
      info: {
        Title: settable(title),
        Author: settable(from.name),
        Creator: 'Bedwright',
        CreationDate: new Date(made.epochMilliseconds),
        Producer: 'Bedwright',
      },
    })
    this.doc.registerFont('plain', PLAIN as unknown as string)
    this.doc.registerFont('bold', BOLD as unknown as string)
    this.width = this.doc.page.width - 2 * MARGIN
    this.root = this.doc.struct('Document')
    this.doc.addStructure(this.root)
  }

  get bottom(): number {
    return this.doc.page.height - MARGIN
  }

  /** How tall a page is between its margins. */
  get tallest(): number {
    return this.bottom - MARGIN
  }

  /** A part of the document; what is added to it is read after what was added before. */
  section(kind: string, within: Structure = this.root, options: { lang?: string } = {}): Structure {
    const element = this.doc.struct(kind as 'Sect', options)
    within.add(element)
    return element
  }

  /** Goes on with a new page unless so much room is left; more than a page has is never asked for. */
  keep(height: number): void {
    if (this.y + Math.min(height, this.tallest) > this.bottom) this.newPage()
  }

  newPage(): void {
    this.doc.addPage()
    this.y = MARGIN
  }

  /** How tall a text becomes in so much width. */
  heightOf(text: string, style: Style, width = this.width): number {
    return this.styled(style).heightOfString(settable(text), { width })
  }

  /** Writes a text where `y` is, on the next page too where it is long, and goes on below it. */
  write(
    text: string,
    style: Style,
    { x = this.left, width = this.width, align = 'left', within, as = 'P' }: Place,
  ) {
    if (text === '') return
    const place = { width, align, structParent: within, structType: as }
    this.styled(style).text(
      settable(text),
      x,
      this.y,
      align === 'right' ? { ...place, features: ['tnum'] } : place,
    )
    this.y = this.doc.y
  }

  /** Draws what says nothing to those who have it read out. */
  decorate(draw: () => void): void {
    this.doc.markContent('Artifact')
    draw()
    this.doc.endMarkedContent()
  }

  rule(color = RULE, thick = 0.75): void {
    this.decorate(() => {
      this.doc.moveTo(this.left, this.y).lineTo(this.left + this.width, this.y)
      this.doc.lineWidth(thick).stroke(color)
    })
  }

  /** Writes the foot of every page and gives the file. */
  async finish({ foot, pageInWords }: Paper): Promise<Buffer> {
    const { count } = this.doc.bufferedPageRange()
    for (let page = 0; page < count; page += 1) {
      this.doc.switchToPage(page)
      const words = settable(pageInWords(String(page + 1), String(count)))
      // Below the margin the library would begin another page.
      this.doc.page.margins.bottom = 0
      this.decorate(() => {
        this.styled({ size: FOOT, color: SOFT })
        const at = this.doc.page.height - MARGIN + 14
        const room = this.width - this.doc.widthOfString(words) - 20
        this.doc.text(settable(foot), this.left, at, { width: room, height: FOOT, ellipsis: true })
        const right = this.left + this.width - this.doc.widthOfString(words)
        this.doc.text(words, right, at, { lineBreak: false })
      })
    }
    const chunks: Buffer[] = []
    this.doc.on('data', (chunk: Buffer) => chunks.push(chunk))
    const ended = new Promise<void>((resolve, reject) => {
      this.doc.on('end', resolve)
      this.doc.on('error', reject)
    })
    this.doc.end()
    await ended
    return Buffer.concat(chunks)
  }

  private styled({ size, bold = false, color = INK }: Style): PDFKit.PDFDocument {
    return this.doc
      .font(bold ? 'bold' : 'plain')
      .fontSize(size)
      .fillColor(color)
  }
}
