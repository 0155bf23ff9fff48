import type { RateTable } from '../../estimate/rate-table.ts'
import type { Section } from './section.ts'
import { extraSections } from './sections/extra-sections.ts'
import { finishSections } from './sections/finish-sections.ts'
import { bedsSection, cautionsSection, rangesSection } from './sections/measure-sections.ts'
import { packSections } from './sections/pack-sections.ts'
import { pricesSection, taxSection, travelSection } from './sections/price-sections.ts'
import { carriersSection, costsSection, labourSection } from './sections/work-sections.ts'

/** Sections that belong together. */
export interface SectionGroup {
  title: string
  sections: Section[]
}

/** Every section of a rate table, in groups: between them they hold every figure of it. */
export function sectionGroups(table: RateTable): SectionGroup[] {
  const packs = packSections(table)
  const withPacks = (sections: Section[]) =>
    sections.flatMap(section => [
      section,
      ...packs.filter(({ key }) => key.replace('-packs', '') === section.key),
    ])
  return [
    { title: 'Finishes', sections: withPacks(finishSections(table)) },
    { title: 'Extras', sections: withPacks(extraSections(table)) },
    {
      title: 'Prices',
      sections: [pricesSection(table), travelSection(table), taxSection(table)],
    },
    {
      title: 'Work and costs',
      sections: [labourSection(table), carriersSection(table), costsSection(table)],
    },
    {
      title: 'Sums and ranges',
      sections: [bedsSection(table), rangesSection(table), cautionsSection(table)],
    },
  ]
}

/** One section by its key, 'labour' or 'finish.stone'; undefined where the table has none such. */
export function findSection(table: RateTable, key: string): Section | undefined {
  return sectionGroups(table)
    .flatMap(({ sections }) => sections)
    .find(section => section.key === key)
}
