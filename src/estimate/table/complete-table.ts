import type { z } from 'zod'
import { extra } from './extra.ts'
import { finish } from './finish.ts'
import { type Extra, type Finish, type RateTable, rateFigures } from './rate-table.ts'
import { completed } from './values.ts'

/** A rate table as it is stored: never rewritten, and so of whatever format tables had when it was made. */
export type StoredTable = RateTable & { format?: number }

/** A stored body of an older format, of which a step knows what it changes and no more. */
type Body = Record<string, unknown>

/**
 * What makes a table of each format one of the next: pure, and never changed once tables of that format are stored.
 * A figure that is only added needs no step: its row says what tables have that were stored before it.
 */
const STEPS: ((body: Body) => Body)[] = [from1to2, from2to3, from3to4, from4to5]

export const FORMAT = STEPS.length + 1

/** A table as it is to be stored. */
export function storedTable(table: RateTable): StoredTable {
  return { format: FORMAT, ...table }
}

/**
 * A stored rate table of whatever age as tables are now; the figures that it gave stay as they were.
 * @throws {Error} when a newer version of the program made it
 */
export function completeTable(stored: StoredTable, figures: z.ZodObject = rateFigures): RateTable {
  const { format = formatOf(stored), ...body } = stored as Partial<StoredTable>
  if (format > FORMAT) throw new Error(`a rate table of format ${format}: this version knows ${FORMAT}`)
  const now = STEPS.slice(format - 1).reduce((older, step) => step(older), body as object as Body)
  return completed(figures, now, stored.units) as RateTable
}

// The first two were stored without a number.
function formatOf(body: object): number {
  return 'crewHoursPerVolume' in body ? 1 : 2
}

/** One figure of labor hours for a volume, and one for an extra, become a lower and an upper one. */
function from1to2({ crewHoursPerVolume, ...body }: Body): Body {
  const both = (hours: unknown) => (typeof hours === 'string' ? { lower: hours, upper: hours } : hours)
  const extras = (body.extras as Body[]).map(extra => ({ ...extra, crewHours: both(extra.crewHours) }))
  return { ...body, extras, labour: { spread: both(crewHoursPerVolume) } }
}

/** Labor is spelled as in the rest of the program. */
function from2to3({ labour, ...body }: Body): Body {
  return labour === undefined ? body : { ...body, labor: labour }
}

/** Hours of labor are no longer called those of a crew, and the wage of one has its own name. */
function from3to4({ extras, costs, floors, ...body }: Body): Body {
  return {
    ...body,
    extras: (extras as Body[]).map(extra => renamed(extra, { crewHours: 'laborHours' })),
    ...(costs === undefined
      ? {}
      : { costs: renamed(costs as Body, { crewHour: 'wage', overheadPerCrewHour: 'overheadPerLaborHour' }) }),
    ...(floors === undefined
      ? {}
      : { floors: renamed(floors as Body, { payPerCrewHour: 'payPerLaborHour' }) }),
  }
}

/** A promise over 95 % came down to that: a range of 1,024 scenarios keeps none that is higher. */
function from4to5(body: Body): Body {
  const isHigher = Number(body.promise) > 0.95 && Number(body.promise) < 1
  return isHigher ? { ...body, promise: '0.95' } : body
}

function renamed(body: Body, names: Record<string, string>): Body {
  return Object.fromEntries(Object.entries(body).map(([name, value]) => [names[name] ?? name, value]))
}

const { rates: _, ...finishAlone } = completed(finish, {}, 'us') as Omit<
  Finish,
  'slug' | 'name' | 'depth' | 'hatch' | 'swatch'
>
const {
  lower: _lower,
  upper: _upper,
  ...extraAlone
} = completed(extra, {}, 'us') as Omit<Extra, 'slug' | 'name'>

/** What every finish begins with besides what it is, looks like and costs: nothing that changes a price. */
export const finishStart = finishAlone

/** The same of an extra. */
export const extraStart = extraAlone
