import type { z } from 'zod'
import { type RateTable, rateFigures } from '../../estimate/table/rate-table.ts'
import type { Section } from './section.ts'
import { extraSections } from './sections/extra-sections.ts'
import { finishSections } from './sections/finish-sections.ts'
import { packSections } from './sections/pack-sections.ts'
import { rangeSections, workSections } from './sections/plain-sections.ts'
import { priceSections } from './sections/price-sections.ts'

/** Sections that belong together. */
export interface SectionGroup {
  title: string
  /** What filling it in would add. */
  adds: string
  sections: Section[]
}

/** Every section of a rate table, in groups: between them they hold every figure of it. */
export function sectionGroups(table: RateTable, figures: z.ZodObject = rateFigures): SectionGroup[] {
  const packs = packSections(table, figures)
  const withPacks = (sections: Section[]) =>
    sections.flatMap(section => [
      section,
      ...packs.filter(({ key }) => key.replace('-packs', '') === section.key),
    ])
  return [
    {
      title: 'Finishes',
      adds: 'Add packs and their prices, and every quote says what to buy: bags or bulk, how many, and what they cost.',
      sections: withPacks(finishSections(table, figures)),
    },
    {
      title: 'Extras',
      adds: 'Homeowners can ask for edging or weeding along with the bed, and see its price right away.',
      sections: withPacks(extraSections(table, figures)),
    },
    {
      title: 'Prices',
      adds: 'Add job sizes, travel charges, and tax, and every price includes them automatically.',
      sections: priceSections(table, figures),
    },
    {
      title: 'Work and costs',
      adds: 'Put in your costs to see pay per hour, cost, and margin on every quote.',
      sections: workSections(table, figures),
    },
    {
      title: 'Volumes and price ranges',
      adds: 'Use figures from your own jobs, and price ranges get as narrow as they honestly can.',
      sections: rangeSections(table, figures),
    },
  ]
}

/** One section by its key, 'labour' or 'finish.stone'; undefined where the table has none such. */
export function findSection(table: RateTable, key: string): Section | undefined {
  return sectionGroups(table)
    .flatMap(({ sections }) => sections)
    .find(section => section.key === key)
}
