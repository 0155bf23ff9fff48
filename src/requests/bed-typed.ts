import type { BedTold } from '../estimate/job/bed.ts'
import { MOST_BEDS } from '../estimate/reading/read-beds.ts'
import { isShapeName, shapeOf } from '../estimate/shapes/all-shapes.ts'
import { type Field, type Group, groupOf } from '../http/nested-fields.ts'

/** A bed as typed on a form, before it is told; it has the sizes of every shape that was tried, so that none is lost. */
export type BedTyped = Omit<BedTold, 'measuredBy' | 'count'> & { count: string }

/** The fields of each bed of a posted form; of more than can be taken in the first. */
export function postedBeds({ beds }: Group): Group[] {
  return Array.isArray(beds) ? beds.slice(0, MOST_BEDS).map(groupOf) : []
}

/** A posted bed; `text` gives what was typed into a field, '' for none. */
export function bedTyped(posted: Group, text: (field: Field | undefined) => string): BedTyped {
  const sizes = Object.entries(groupOf(posted.sizes)).map(([name, size]) => [name, text(size)])
  return {
    shape: text(posted.shape),
    sizes: Object.fromEntries(sizes),
    count: text(posted.count),
    planted: text(posted.planted),
    lying: text(posted.lying),
    finish: text(posted.finish),
    depth: text(posted.depth),
  }
}

/** The sizes that its own shape asks for, '' for what wasn't typed; none where there is no such shape. */
export function ownSizes({ shape, sizes }: Pick<BedTyped, 'shape' | 'sizes'>): Record<string, string> {
  if (!isShapeName(shape)) return {}
  return Object.fromEntries(shapeOf(shape).sizes.map(({ name }) => [name, sizes[name] ?? '']))
}
