import { starterTable } from '../../estimate/starter/starter.ts'
import type { RateTable } from '../../estimate/table/rate-table.ts'
import { unitSystem } from '../../estimate/units/units.ts'
import { moneyInWords } from '../../language/money-in-words.ts'
import { INVENTED, named, percentInWords, type StartFigure } from './start-figure.ts'

const WAYS = { tape: 'by tape', paces: 'in paces', eye: 'by eye' } as const

/** How far people are out when they measure, and what a range promises. */
export function rangeFigures(table: RateTable): StartFigure[] {
  const start = starterTable(table.units)
  const ways = Object.entries(WAYS) as [keyof typeof WAYS, string][]
  const errorOf = ({ measuring }: RateTable, way: keyof typeof WAYS) => [
    measuring[way].sigma,
    measuring[way].rho,
  ]
  const section = 'ranges'
  return [
    ...ways.map(([way, words]) => ({
      key: `measuring.${way}`,
      label: `Error of a length measured ${words}`,
      words: `${percentInWords(table.measuring[way].sigma)}, of which shared ${table.measuring[way].rho}`,
      now: errorOf(table, way),
      start: errorOf(start, way),
      source: INVENTED,
      section,
    })),
    {
      key: 'pace',
      label: 'A pace',
      words: `${table.pace} ${unitSystem(table.units).length}`,
      now: [table.pace],
      start: [start.pace],
      source: named('US Army: 30 in'),
      section,
    },
    {
      key: 'promise',
      label: 'Jobs that end up inside the range',
      words: percentInWords(table.promise),
      now: [table.promise],
      start: [start.promise],
      source: INVENTED,
      section,
    },
    {
      key: 'step',
      label: 'Step of the range',
      words: moneyInWords(table.step, table.currency, 'en', { whole: true }),
      now: [table.step],
      start: [start.step],
      source: INVENTED,
      section,
    },
  ]
}
