import type { UsualLayer } from '../../estimate/table/layer.ts'
import type { Kind } from '../../estimate/table/row.ts'
import type { Row } from '../../estimate/table/rows.ts'
import { Decimal } from '../../lib/decimal.ts'

/** How one figure or text of the rate table stands in a cell. A cell that can't be read is passed on as it is: the schema refuses it. */
export interface Cell {
  write(value: unknown): string
  /** decimalComma: whether "0,80" is 0.80, as where semicolons part the cells. */
  read(text: string, decimalComma: boolean): unknown
}

const PLAIN = /^\d{1,9}(\.\d{1,9})?$/

export const figure: Cell = {
  write: value => String(value),
  read: (text, decimalComma) => plainFigure(text.trim(), decimalComma),
}

const figureOrNone: Cell = {
  write: value => (value === null ? '' : String(value)),
  read: (text, decimalComma) => (text.trim() === '' ? null : figure.read(text, decimalComma)),
}

export const text: Cell = { write: value => guarded(String(value)), read: unguarded }

const textOrNone: Cell = {
  write: value => (value === null ? '' : guarded(String(value))),
  read: cell => (cell === '' ? null : unguarded(cell)),
}

/** For what may be left out of the table altogether, which isn't the same as an empty text. */
const textOrAbsent: Cell = {
  write: value => (value === undefined ? '' : value === '' ? "'" : guarded(String(value))),
  read: cell => (cell === '' ? undefined : unguarded(cell)),
}

/** One of a few words. */
export const word: Cell = { write: value => guarded(String(value)), read: cell => unguarded(cell).trim() }

const wordOrNone: Cell = {
  write: textOrNone.write,
  read: cell => (cell.trim() === '' ? null : word.read(cell, false)),
}

/** Words with spaces between; commas and semicolons do too on the way in. None is an empty cell. */
const words: Cell = {
  write: value => guarded((value as string[]).join(' ')),
  read: cell =>
    unguarded(cell)
      .split(/[\s,;]+/)
      .filter(Boolean),
}

/** Slugs with spaces between; after a colon how deep one is: 'fabric compost:2'. */
const layers: Cell = {
  write: value =>
    guarded(
      (value as UsualLayer[])
        .map(({ slug, depth }) => (depth === null ? slug : `${slug}:${depth}`))
        .join(' '),
    ),
  read: (cell, decimalComma) =>
    unguarded(cell)
      .split(decimalComma ? /[\s;]+/ : /[\s,;]+/)
      .filter(Boolean)
      .map(layer => {
        const [slug, depth, ...more] = layer.split(':')
        if (more.length > 0) return layer
        return { slug, depth: depth === undefined ? null : plainFigure(depth, decimalComma) }
      }),
}

const yesOrNo: Cell = {
  write: value => (value ? 'yes' : 'no'),
  read: cell => {
    const said = cell.trim().toLowerCase()
    // A spreadsheet writes its truths in its own language.
    if (['yes', 'true', 'sí', 'si', 'verdadero'].includes(said)) return true
    return ['no', 'false', 'falso'].includes(said) ? false : cell
  },
}

const CELLS: Partial<Record<Kind, Cell>> = {
  choice: word,
  colour: word,
  slug: word,
  group: wordOrNone,
  photo: wordOrNone,
  pinned: textOrNone,
  codes: words,
  slugs: words,
  layers,
  yes: yesOrNo,
}

/** How a figure of the catalogue stands in a cell. */
export function cellOf({ kind, empty }: Pick<Row, 'kind' | 'empty'>): Cell {
  if (kind === 'figure' || kind === 'share') return empty ? figureOrNone : figure
  if (empty === 'absent') return textOrAbsent
  return CELLS[kind] ?? (empty ? textOrNone : text)
}

// A formula wherever a spreadsheet may begin a cell: one set to part cells by semicolons or tabs splits texts at them,
// and breaks lines inside them.
const FORMULA = /(?<=^|[;\t\r\n])(?=[\t\r\n]|[^\S\t\r\n]*[=+\-@＝＋－＠'])/g
// What a spreadsheet would make a number, a date or a truth of: 01234 would lose its nought, and mar-1 its name.
const ALTERED = /^[.,(]?\s{0,9}[$€£¥]?[.,]?\d|^\p{L}+[\s.\-/]*\d+$|^(true|false|verdadero|falso)$/iu

/** A text as it may stand in a spreadsheet: an apostrophe before what would be taken for a formula or a number. */
export function guarded(plain: string): string {
  const safe = plain.replace(FORMULA, "'")
  return ALTERED.test(plain.trim()) && !safe.startsWith("'") ? `'${safe}` : safe
}

/** The text that `guarded` was given. */
export function unguarded(cell: string): string {
  return cell.replace(/(?<=^|[;\t\r\n])'/g, '')
}

/** Whether two cells say the same: alike, or figures of one value. */
export function sameCell(one: string, other: string): boolean {
  if (one === other) return true
  return PLAIN.test(one) && PLAIN.test(other) && new Decimal(one).eq(other)
}

// A spreadsheet may write 0.00001 as 1E-05, and .5 for a half.
function plainFigure(typed: string, decimalComma: boolean): string {
  const point = decimalComma ? typed.replace(',', '.') : typed
  if (PLAIN.test(point)) return point
  if (/^\d{0,9}\.\d{1,9}$|^\d(\.\d{1,9})?e[+-]?\d{1,2}$/i.test(point)) return new Decimal(point).toFixed()
  return typed
}
