import type { z } from 'zod'
import type { RateTable } from '../../../estimate/table/rate-table.ts'
import { percent } from '../entries.ts'
import { listOf, sectionBlocks } from '../figure-fields.ts'
import type { Section } from '../section.ts'

/** Crew hours of laying, the truck, and what the work costs. */
export function workSections(table: RateTable, figures: z.ZodObject): Section[] {
  const { labor, carriers, costs, currency } = table
  return [
    {
      key: 'labour',
      title: 'Labor',
      holds: `spreading ${labor.spread.lower} to ${labor.spread.upper} h; set-up and trips ${labor.setUp.lower} h, ${labor.trip.lower} h`,
      adds: 'With carrying, stairs and trips in, crew hours fit the place, and so do work days.',
      base: '',
      parts: sectionBlocks('labour', figures),
    },
    {
      key: 'carriers',
      title: 'Truck and trailer',
      holds: carriers.map(({ name }) => name.en).join(', ') || 'none yet',
      adds: 'With them in, you see how many trips a job takes, and are warned of their payload.',
      base: '',
      parts: [listOf('carriers', 'Carrier', table, figures)],
    },
    {
      key: 'costs',
      title: 'Wages, overhead, truck and margin',
      holds: costs.crewHour === null ? 'no wage yet' : `a crew hour at ${costs.crewHour} ${currency}`,
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
      title: 'Beds: allowance, plants, what lies there',
      holds: `allowance ${percent.write(allowance)} %, thinnest top-up ${thinnestTopUp}`,
      adds: 'With figures of your own, volumes fit the beds that you see.',
      base: '',
      parts: sectionBlocks('beds', figures),
    },
    {
      key: 'ranges',
      title: 'Ranges: errors of measuring, promise, step',
      holds: `${percent.write(promise)} % of jobs inside, to ${step} ${currency}`,
      adds: 'With errors that you have seen, ranges are as wide as they must be and no wider.',
      base: '',
      parts: sectionBlocks('ranges', figures),
    },
    {
      key: 'cautions',
      title: 'Cautions',
      holds: cautions.map(({ code }) => code.replaceAll('-', ' ')).join(', ') || 'none',
      adds: 'Warnings that are shown where they matter, with whose advice they are. One left out is never shown.',
      base: '',
      parts: [listOf('cautions', 'Caution', table, figures)],
    },
  ]
}
