import PDFDocument from 'pdfkit'
import type { MarkupPattern } from './markup.ts'

const operators = new Map<string, string>()

/** A hatching to fill with on this document. */
export function patternOf(doc: PDFKit.PDFDocument, { path, width, height }: MarkupPattern) {
  const stream = operators.get(path) ?? operatorsOf(path)
  // As many as there are hatchings; a drawing has none of its own.
  operators.set(path, stream)
  return doc.pattern([0, 0, width, height], width, height, stream)
}

// What the library would write for such a path on a page, caught by one that is never made.
function operatorsOf(path: string): string {
  const written: string[] = []
  const scratch = new PDFDocument({ autoFirstPage: false })
  scratch.addContent = (operator: string) => {
    written.push(operator)
    return scratch
  }
  scratch.lineWidth(1).lineCap('round').path(path).stroke()
  return written.join('\n')
}
