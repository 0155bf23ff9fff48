import type { Fault } from '../estimate/job/bed.ts'
import type { Key } from '../language/catalogue.ts'
import type { BedsForm } from './form.ts'
import type { RangeView } from './range-view.ts'

/** The range so far in a line that stays in sight, and the first thing that is missing for all of it. */
export interface RangeStrip {
  figure: string | null
  missing: Missing | null
}

/** What a bed needs: a size that wasn't told, another look at one that was, a finish, another look at something else. */
interface Missing {
  what: 'size' | 'check-size' | 'finish' | 'check'
  bed: number
  /** What the field of the size is called. */
  label: Key | null
  /** The id of the field. */
  field: string
}

/** Null while no size of any bed is told: an empty form asks for nothing yet. */
export function stripOf(form: BedsForm, faults: Fault[], range: RangeView | null): RangeStrip | null {
  const begun = form.beds.some(({ sizes }) => Object.values(sizes).some(typed => typed !== ''))
  return begun ? { figure: range?.figure ?? null, missing: missingOf(form, faults) } : null
}

function missingOf(form: BedsForm, faults: Fault[]): Missing | null {
  for (const { field: name } of faults) {
    const [, at, part, size = null] = /^beds\.(\d+)\.(\w+)(?:\.(\w+))?$/.exec(name) ?? []
    const bed = form.beds[Number(at)]
    if (!bed || part === 'measuredBy') continue
    // tests/house/shapes.test.ts holds that each size has its words.
    const label = size === null ? null : (`form.${size}` as Key)
    const inHand = { bed: Number(at) + 1, label, field: name.replaceAll('.', '-') }
    if (part === 'finish') return { what: 'finish', ...inHand }
    if (size === null) return { what: 'check', ...inHand }
    return { what: bed.sizes[size] === '' ? 'size' : 'check-size', ...inHand }
  }
  return null
}
