import type { BedTold } from '../estimate/job/bed.ts'
import { MOST_BEDS } from '../estimate/reading/read-beds.ts'
import { isShapeName, shapeOf } from '../estimate/shapes/all-shapes.ts'
import type { FormFields } from '../http/form-fields.ts'

/**
 * A bed as typed on a form, before it is told; it has the sizes of every shape that was tried, so that none is lost. How it was
 * measured is said where that isn't as for all the beds.
 */
export type BedTyped = Omit<BedTold, 'measuredBy' | 'count'> & { count: string; measuredBy?: string }

/** The fields of each bed of a posted form; of more than can be taken in the first. */
export function postedBeds(fields: FormFields, most = MOST_BEDS): FormFields[] {
  return fields.rows('beds').slice(0, most)
}

/** A posted bed, each text made clean; a field that wasn't sent is as in `blank`. */
export function bedTyped(
  posted: FormFields,
  clean = (typed: string) => typed,
  blank: Partial<Omit<BedTyped, 'sizes'>> = {},
): BedTyped {
  const text = (name: 'shape' | 'count' | 'planted' | 'lying' | 'finish' | 'depth') =>
    posted.has(name) ? clean(posted.text(name)) : (blank[name] ?? '')
  const sizes = posted.group('sizes')
  return {
    shape: text('shape'),
    sizes: Object.fromEntries(sizes.names().map(name => [name, clean(sizes.text(name))])),
    count: text('count'),
    planted: text('planted'),
    lying: text('lying'),
    finish: text('finish'),
    depth: text('depth'),
    ...(posted.text('layers') === 'none' && { layers: 'none' }),
  }
}

/** The sizes that its own shape asks for, '' for what wasn't typed; none where there is no such shape. */
export function ownSizes({ shape, sizes }: Pick<BedTyped, 'shape' | 'sizes'>): Record<string, string> {
  if (!isShapeName(shape)) return {}
  return Object.fromEntries(shapeOf(shape).sizes.map(({ name }) => [name, sizes[name] ?? '']))
}
