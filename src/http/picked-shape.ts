import type { Plugin } from 'esbuild'
import { shapeNames } from '../estimate/shapes/all-shapes.ts'

/**
 * The rule by which only the sizes of the picked shape show, with no script: a picked `.shape-pick` hides each `.size`
 * of its bed whose `data-shapes` doesn't name its value. Without :has() all of them show.
 */
function pickedShapeStyle(shapes: readonly string[]): string {
  const others = shapes.map(
    shape => `.bed:has(.shape-pick[value="${shape}"]:checked) .size:not([data-shapes~="${shape}"])`,
  )
  return `@supports selector(:has(*)) { ${others.join(', ')} { display: none } }`
}

/** Gives style sheets that rule, for every shape, as a sheet to import: `picked-shape.css`. */
export const pickedShape: Plugin = {
  name: 'picked shape',
  setup: ({ onResolve, onLoad }) => {
    onResolve({ filter: /^picked-shape\.css$/ }, ({ path }) => ({ path, namespace: 'shapes' }))
    onLoad({ filter: /.*/, namespace: 'shapes' }, () => ({
      contents: pickedShapeStyle(shapeNames()),
      loader: 'css',
    }))
  },
}
