import type { IconLine } from '../estimate/shapes/shape.ts'
import type { Tile } from './tile.ts'

/** A small outline of a bed's shape to pick by. */
export function shapeIcon(icon: readonly IconLine[]): Tile {
  return { classes: 'shape-icon', width: 56, height: 40, body: icon.map(drawLine).join('') }
}

const CLASSES = { thin: 'icon-thin', dashed: 'icon-dashed', solid: 'icon-solid', wall: 'wall' }

function drawLine({ path, as }: IconLine): string {
  return `<path${as ? ` class="${CLASSES[as]}"` : ''} d="${path}"/>`
}
