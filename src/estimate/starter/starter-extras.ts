import { extraStart } from '../table/complete-table.ts'
import type { Extra, RateTable } from '../table/rate-table.ts'

type Units = RateTable['units']

/** An extra of the starter list, waiting for the owner's rates. */
export type StarterExtra = Omit<Extra, 'lower' | 'upper'>

/** Two common extras. Labor hours per ft|m of edge and per ft²|m² are invented, the owner's to change. */
export function starterExtras(units: Units): StarterExtra[] {
  return [
    {
      ...extraStart,
      slug: 'edging',
      name: { en: 'Cut a fresh edge', es: 'Cortar un borde nuevo' },
      per: 'edge',
      laborHours: hoursPer(units, '0.02', '0.066'),
      cautions: ['digging'],
    },
    {
      ...extraStart,
      slug: 'weeding',
      name: { en: 'Pull the weeds first', es: 'Quitar la maleza antes' },
      per: 'area',
      group: 'weeds',
      laborHours: hoursPer(units, '0.002', '0.0215'),
      cautions: [],
    },
  ]
}

/**
 * Work that whoever measures finds, and homeowners aren't asked about: heavier weeds, old material and old fabric to
 * take out, fabric to lay. Labor hours are invented; that old mulch lies a third looser on the truck is common practice.
 */
export function siteExtras(units: Units): StarterExtra[] {
  const found = { ...extraStart, offered: false }
  return [
    {
      ...found,
      slug: 'weeds-heavy',
      cautions: ['weed-killer'],
      name: { en: 'Heavy weeds', es: 'Mucha maleza' },
      per: 'area',
      group: 'weeds',
      laborHours: hoursPer(units, '0.005', '0.054'),
    },
    {
      ...found,
      slug: 'weeds-jungle',
      cautions: ['weed-killer'],
      name: { en: 'Overgrown with weeds', es: 'Lleno de maleza' },
      per: 'area',
      group: 'weeds',
      laborHours: hoursPer(units, '0.012', '0.13'),
    },
    {
      ...found,
      slug: 'old-out',
      name: { en: 'Remove the old material', es: 'Retirar el material viejo' },
      per: 'lying',
      fluffing: '1.3',
      laborHours: hoursPer(units, '0.9', '1.2'),
    },
    {
      ...found,
      slug: 'fabric-out',
      name: { en: 'Remove old landscape fabric', es: 'Retirar la malla vieja' },
      per: 'area',
      laborHours: hoursPer(units, '0.006', '0.065'),
    },
    {
      ...found,
      slug: 'fabric',
      name: { en: 'Landscape fabric', es: 'Malla antimaleza' },
      per: 'area',
      laborHours: hoursPer(units, '0.004', '0.043'),
    },
  ]
}

function hoursPer(units: Units, us: string, metric: string): Extra['laborHours'] {
  const hours = units === 'us' ? us : metric
  return { lower: hours, upper: hours }
}
