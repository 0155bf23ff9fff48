import { encodeQR } from 'qr'
import sharp from 'sharp'
import { escapeXml } from '../drawing/svg.ts'

/** Modules of white around it, as its standard (ISO/IEC 18004) asks for. */
const QUIET = 4
/** Enough for print: more than 300 dots an inch at two inches. */
const DOTS_A_MODULE = 20

/** A QR code of a text as SVG markup: black on white whatever the page's colors are, since readers look for that. */
export function qrSvg(text: string, title: string): string {
  const rows = modulesOf(text)
  const size = rows.length
  const runs = rows.flatMap((row, y) =>
    blackRuns(row).map(([x, width]) => `M${x} ${y}h${width}v1h-${width}z`),
  )
  const frame = `viewBox="0 0 ${size} ${size}" width="${size * 8}" height="${size * 8}"`
  return `<svg xmlns="http://www.w3.org/2000/svg" class="qr-code" ${frame} role="img" shape-rendering="crispEdges"><title>${escapeXml(title)}</title><path fill="#fff" d="M0 0h${size}v${size}h-${size}z"/><path fill="#000" d="${runs.join('')}"/></svg>`
}

/** The same as a PNG, in two colors. */
export async function qrPng(text: string): Promise<Buffer> {
  const rows = modulesOf(text)
  const size = rows.length
  const dots = Buffer.from(rows.flat().map(isBlack => (isBlack ? 0 : 255)))
  return sharp(dots, { raw: { width: size, height: size, channels: 1 } })
    .resize(size * DOTS_A_MODULE, size * DOTS_A_MODULE, { kernel: 'nearest' })
    .png({ palette: true, colours: 2 })
    .toBuffer()
}

function modulesOf(text: string): boolean[][] {
  return encodeQR(text, 'raw', { ecc: 'medium', border: QUIET })
}

/** Where black begins in a row, and how far it goes. */
function blackRuns(row: boolean[]): [x: number, width: number][] {
  const runs: [number, number][] = []
  row.forEach((isBlack, x) => {
    if (!isBlack) return
    if (row[x - 1]) runs.at(-1)![1] += 1
    else runs.push([x, 1])
  })
  return runs
}
