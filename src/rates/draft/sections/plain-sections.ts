import type { z } from 'zod'
import type { RateTable } from '../../../estimate/table/rate-table.ts'
import { percent } from '../entries.ts'
import { listOf, sectionBlocks } from '../figure-fields.ts'
import type { Section } from '../section.ts'

/** Labor hours of laying, the truck, and what the work costs. */
export function workSections(table: RateTable, figures: z.ZodObject): Section[] {
  const { labor, carriers, costs, currency } = table
  return [
    {
      key: 'labour',
      title: 'Labor',
      holds: `spreading ${labor.spread.lower} to ${labor.spread.upper} h; setup ${labor.setUp.lower} h; a trip ${labor.trip.lower} h`,
      adds: 'Add carrying, stairs, and trips, and labor hours fit the place. So do work days.',
      base: '',
      parts: sectionBlocks('labour', figures),
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
      key: 'costs',
      title: 'Wages, overhead, truck and margin',
      holds: costs.crewHour === null ? 'no wage yet' : `${costs.crewHour} ${currency} per labor hour`,
      adds: 'With your costs in, you would see pay per hour here, and cost and margin on every quote.',
      base: '',
      parts: sectionBlocks('costs', figures),
    },
  ]
}

/** What sums and ranges rest on, and the warnings. */
export function rangeSections(table: RateTable, figures: z.ZodObject): Section[] {
  const { allowance, thinnestTopUp, promise, step, currency, cautions } = table
  return [
    {
      key: 'beds',
      title: 'Beds: allowance, plants, what’s already there',
      holds: `allowance ${percent.write(allowance)} %, thinnest top-up ${thinnestTopUp}`,
      adds: 'Use your own figures, and volumes fit the beds you see.',
      base: '',
      parts: sectionBlocks('beds', figures),
    },
    {
      key: 'ranges',
      title: 'Price ranges: measuring and rounding',
      holds: `${percent.write(promise)} % of jobs inside, to ${step} ${currency}`,
      adds: 'Use what you’ve seen yourself, and price ranges are only as wide as they need to be.',
      base: '',
      parts: sectionBlocks('ranges', figures),
    },
    {
      key: 'cautions',
      title: 'Cautions',
      holds: cautions.map(({ code }) => code.replaceAll('-', ' ')).join(', ') || 'none',
      adds: 'Warnings shown where they matter, with whose advice they are. Leave one out and it’s never shown.',
      base: '',
      parts: [listOf('cautions', 'Caution', table, figures)],
    },
  ]
}
