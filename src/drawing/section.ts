import { FIGURE, figure } from './dimension-lines.ts'
import { type Hatch, hatchPattern } from './hatches.ts'
import { num, svg, textWidth } from './svg.ts'

/** One layer of a bed cut through: deep in in|cm, label '2 in compost'. What is but a sheet, as fabric is, has no depth. */
export interface SectionLayer {
  label: string
  deep: number | null
  hatch: Hatch
  colour: string
}

const TALLEST = 72
/** Room for a figure beside it. */
const LEAST = 22
const WIDEST = 120
const NARROWEST = 48
const GAP = 8

/** A bed cut through from the top down, its depths to scale as far as each figure has room. */
export function drawSection(
  layers: SectionLayer[],
  at: { id: string; top: number; width: number },
): { defs: string; body: string; height: number } {
  const deepest = layers.reduce((sum, { deep }) => sum + (deep ?? 0), 0)
  const words = Math.max(...layers.map(({ label }) => textWidth(label, FIGURE)))
  const wide = Math.max(NARROWEST, Math.min(WIDEST, at.width - words - GAP))
  let y = at.top
  const drawn = layers.map((layer, index) => {
    const top = y
    const height = Math.max(LEAST, deepest > 0 ? ((layer.deep ?? 0) / deepest) * TALLEST : 0)
    y += height
    const label = figure(wide + GAP, top + height / 2 + FIGURE * 0.36, 'start', layer.label)
    return drawLayer(layer, `${at.id}-layer-${index + 1}`, { top, height, wide }) + label
  })
  const defs = layers.map((layer, index) =>
    layer.deep === null ? '' : hatchPattern(layer.hatch, `${at.id}-layer-${index + 1}`, 'hatch'),
  )
  const ground = `<path class="section-ground" d="M0 ${num(y + 1)}L${num(wide)} ${num(y + 1)}"/>`
  return { defs: defs.join(''), body: drawn.join('') + ground, height: y + 4 - at.top }
}

/** The same by itself, for a bed that has no outline. */
export function drawSectionAlone(layers: SectionLayer[], id: string, title: string): string {
  const width = 288
  const { defs, body, height } = drawSection(layers, { id, top: 0, width })
  return svg({ id, title, width, height, classes: 'drawing', body: `<defs>${defs}</defs>${body}` })
}

function drawLayer(
  { deep, colour }: SectionLayer,
  pattern: string,
  { top, height, wide }: { top: number; height: number; wide: number },
): string {
  const middle = num(top + height / 2)
  if (deep === null) return `<path class="section-sheet" d="M0 ${middle}L${num(wide)} ${middle}"/>`
  const box = `x="0.75" y="${num(top)}" width="${num(wide - 1.5)}" height="${num(height)}"`
  const wash = /^#[0-9a-f]{6}$/i.test(colour) ? `<rect class="bed-wash" ${box} fill="${colour}"/>` : ''
  return `${wash}<rect class="bed-edge" ${box} fill="url(#${pattern})"/>`
}
