import { type CrewTold, withCrew } from '../estimate/table/crew.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { Typed } from '../http/posted.ts'

const MOST = 50

/** One kind of worker to be counted: '' for all people at one wage; was is how many come on a usual job. */
export interface CrewField {
  name: string
  label: string
  was: string
}

/** Who may come to a job, to be counted; none where it would change neither its cost nor its price. */
export function crewFields(table: RateTable): CrewField[] {
  const { people, labor, costs, travel } = table
  if (people.length > 0) return people.map(({ name, come }) => ({ name, label: name, was: come }))
  const drives = [labor, ...travel].some(({ drive }) => Number(drive ?? 0) > 0)
  return drives || Number(costs.truckEach) > 0
    ? [{ name: '', label: 'How many people', was: labor.crew }]
    : []
}

/** Reads who comes to one job; undefined where it is the usual crew, or can't be read. */
export function readCrew(fields: FormFields): CrewTold | undefined {
  const rows = fields.rows('crew')
  const crew = rows.map(row => ({
    name: row.text('name'),
    count: row.figure('count', { places: 2, most: MOST, outside: `Give a number up to ${MOST}.` }) ?? '0',
  }))
  if (rows.every((row, index) => Number(row.text('was')) === Number(crew[index]!.count))) return undefined
  if (crew.some(({ count }) => Number(count) > 0)) return crew
  rows[0]!.fault('count', 'At least one person has to come.')
  return undefined
}

/** A crew as the fields of the form. */
export function crewTyped(told: CrewTold | undefined, rates: RateTable): Typed {
  const fields = crewFields(withCrew(rates, told))
  return Object.fromEntries(fields.map(({ was }, index) => [`crew.${index}.count`, was]))
}

export function sameCrew(one: CrewTold | undefined, other: CrewTold | undefined): boolean {
  const text = (crew: CrewTold = []) => crew.map(({ name, count }) => `${Number(count)} ${name}`).join('\n')
  return text(one) === text(other)
}
