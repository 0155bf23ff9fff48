import type { IconLine } from '../estimate/shapes/shape.ts'

/** A small outline of a bed's shape to pick by. Hidden from screen readers, since the label beside it says the name. */
export function drawShapeIcon(icon: readonly IconLine[]): string {
  return `<svg class="shape-icon" viewBox="0 0 56 40" width="56" height="40" aria-hidden="true">${icon.map(drawLine).join('')}</svg>`
}

const CLASSES = { thin: 'icon-thin', dashed: 'icon-dashed', solid: 'icon-solid', wall: 'wall' }

function drawLine({ path, as }: IconLine): string {
  return `<path${as ? ` class="${CLASSES[as]}"` : ''} d="${path}"/>`
}
