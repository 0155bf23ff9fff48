import type { z } from 'zod'
import type { RateTable, Span } from '../../../estimate/table/rate-table.ts'
import { startOf } from '../../../estimate/table/values.ts'
import { bulkName } from '../../../estimate/units/unit-of.ts'
import { unitSystem } from '../../../estimate/units/units.ts'
import { moneyInWords } from '../../../language/money-in-words.ts'
import { percent } from '../entries.ts'
import { foldedBlocks, listOf, sectionBlocks } from '../figure-fields.ts'
import type { Section } from '../section.ts'
import { cautionSection } from './caution-section.ts'

// One wage and the hours of spreading are enough to begin with.
const LABOR_ADDS: Record<string, string> = {
  'Slopes and gates':
    'Beds on a slope or behind a narrow gate take longer, once you say so when you measure.',
  'Crew and drive': 'Count the drive there, and the days that a job takes.',
}
const COSTS_ADD: Record<string, string> = {
  'More on truck and overhead':
    'Count the truck by the day, hour, or distance, or overhead as a share of cost.',
}
const PEOPLE_ADD = 'Add somebody, or a kind of work, with a wage.'

/** Labor hours of laying, the truck, and what the work costs. */
export function workSections(table: RateTable, figures: z.ZodObject): Section[] {
  const { labor, carriers, people, costs, currency } = table
  const start = startOf(figures, table.units)
  return [
    {
      key: 'labour',
      title: 'Labor',
      holds: `${hours(labor.spread)} per ${bulkName(table)}; setup ${hours(labor.setUp)}; a trip ${hours(labor.trip)}`,
      adds: 'Add carrying, stairs, and trips, and your labor hours and work days fit the job.',
      base: '',
      parts: foldedBlocks(sectionBlocks('labour', figures), LABOR_ADDS, start),
    },
    {
      key: 'carriers',
      title: 'Truck and trailer',
      holds: carriers.map(({ name }) => name.en).join(', ') || 'none yet',
      adds: 'See how many trips a job takes, and get a warning before you overload them.',
      base: '',
      parts: [listOf('carriers', 'Carrier', table, figures)],
    },
    {
      key: 'people',
      title: 'People and their wages',
      holds: people.map(({ name, come }) => `${name} × ${come}`).join(', ') || 'one wage for everybody',
      adds: 'List people or kinds of work, and what a job costs is told person by person.',
      base: '',
      parts: [listOf('people', 'Person', table, figures, undefined, PEOPLE_ADD)],
    },
    {
      key: 'costs',
      title: 'Wages, overhead, truck, and margin',
      holds:
        costs.wage === null
          ? 'no wage yet'
          : `wage ${moneyInWords(costs.wage, currency, 'en', { whole: true, exact: true })} per labor hour`,
      adds: 'Put in your costs to see pay per hour, cost, and margin on every quote.',
      base: '',
      parts: foldedBlocks(sectionBlocks('costs', figures), COSTS_ADD, start),
    },
  ]
}

function hours({ lower, upper }: Span): string {
  return Number(lower) === Number(upper) ? `${lower} h` : `${lower} to ${upper} h`
}

/** What sums and ranges rest on, and the warnings. */
export function rangeSections(table: RateTable, figures: z.ZodObject): Section[] {
  const { allowance, thinnestTopUp, promise, step, currency } = table
  return [
    {
      key: 'beds',
      title: 'Beds: allowance, plants, old mulch',
      holds: `allowance ${percent.write(allowance)}%, thinnest top-up ${thinnestTopUp} ${unitSystem(table.units).depth}`,
      adds: 'Use your own figures, and volumes fit the beds you work on.',
      base: '',
      parts: sectionBlocks('beds', figures),
    },
    {
      key: 'ranges',
      title: 'Price ranges: measuring and rounding',
      holds: `${percent.write(promise)}% of jobs inside, rounded to ${moneyInWords(step, currency, 'en', { whole: true, exact: true })}`,
      adds: 'Use figures from your own jobs, and price ranges are only as wide as they need to be.',
      base: '',
      parts: sectionBlocks('ranges', figures),
    },
    cautionSection(table, figures),
  ]
}
