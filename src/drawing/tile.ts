/** A small picture to pick by. Hidden from screen readers, since the label beside it says the name. */
export interface Tile {
  classes: string
  width: number
  height: number
  /** What is in it, as markup, over the patterns that fill it. */
  body: string
  patterns?: string
}

/** A tile by itself. */
export function drawTile({ body, patterns = '', ...frame }: Tile): string {
  return framed(frame, patterns + body)
}

/** A tile that stands many times on a page: it is drawn once, as a symbol by its id, and shown by that wherever it stands. */
export interface SharedTile {
  symbol: string
  drawing: string
}

export function shareTile({ body, patterns = '', ...frame }: Tile, id: string): SharedTile {
  const { width, height } = frame
  return {
    symbol: `${patterns}<symbol id="${id}" viewBox="0 0 ${width} ${height}">${body}</symbol>`,
    drawing: framed(frame, `<use href="#${id}"/>`),
  }
}

/** Symbols, to stand on a page before the first of their tiles. Not by `display: none`, which would take their patterns away. */
export function drawSymbols(symbols: string[]): string {
  return `<svg class="unseen" width="1" height="1" aria-hidden="true">${symbols.join('')}</svg>`
}

function framed(
  { classes, width, height }: Pick<Tile, 'classes' | 'width' | 'height'>,
  inside: string,
): string {
  return `<svg class="${classes}" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" aria-hidden="true">${inside}</svg>`
}
