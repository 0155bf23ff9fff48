import type { RateTable } from '../estimate/rate-table.ts'
import { starterTable } from '../estimate/starter.ts'
import { unitSystem } from '../estimate/units.ts'
import { Decimal } from '../money.ts'

/** A figure that the estimate works with and this page doesn't change; `source` says where it comes from. */
export interface Settled {
  label: string
  figure: string
  source: string
}

const INVENTED = 'Invented, to start with'
const OWN = 'This business’s own setting'

/** The figures that stand behind every range, with the source of each. */
export function settledFigures(table: RateTable): Settled[] {
  const start = starterTable(table.units, table.currency)
  const { depth, length } = unitSystem(table.units)
  const percent = (share: string) => `${new Decimal(share).times(100)} %`
  const sourceOf = (now: unknown, then: unknown, source = INVENTED) =>
    JSON.stringify(now) === JSON.stringify(then) ? source : OWN
  const ways = Object.entries({ tape: 'by tape', paces: 'in paces', eye: 'by eye' }) as [Way, string][]
  const layers = Object.entries({ thin: 'thin', fair: 'fair', thick: 'thick', unsure: 'not sure' }) as [
    Layer,
    string,
  ][]
  return [
    ...ways.map(([way, words]) => ({
      label: `Error of a length measured ${words}`,
      figure: `${percent(table.measuring[way].sigma)}, of which shared ${table.measuring[way].rho}`,
      source: sourceOf(entriesOf(table.measuring[way]), entriesOf(start.measuring[way])),
    })),
    {
      label: 'A pace',
      figure: `${table.pace} ${length}`,
      source: sourceOf(table.pace, start.pace, 'US Army: 30 in'),
    },
    ...layers.map(([layer, words]) => ({
      label: `What lies there: ${words}`,
      figure: `${table.lying[layer].m} ${depth}, give or take ${table.lying[layer].s}`,
      source: sourceOf(entriesOf(table.lying[layer]), entriesOf(start.lying[layer])),
    })),
    ...(['half', 'full'] as const).map(planted => ({
      label: `Share that plants take up: ${planted}`,
      figure: percent(table.planted[planted]),
      source: sourceOf(table.planted[planted], start.planted[planted]),
    })),
    ...(['half', 'full'] as const).map(planted => ({
      label: `Laying takes longer, planted ${planted}`,
      figure: `× ${table.labour.planted[planted]}`,
      source: sourceOf(table.labour.planted[planted], start.labour.planted[planted]),
    })),
    {
      label: `Laying takes longer, for each ${table.labour.carry.each} ${length} beyond ${table.labour.carry.free}`,
      figure: percent(table.labour.carry.adds),
      source: sourceOf(entriesOf(table.labour.carry), entriesOf(start.labour.carry)),
    },
    {
      label: 'Laying takes longer, for each stair',
      figure: percent(table.labour.stair),
      source: sourceOf(table.labour.stair, start.labour.stair),
    },
    {
      label: 'Thinnest top-up',
      figure: `${table.thinnestTopUp} ${depth}`,
      source: sourceOf(table.thinnestTopUp, start.thinnestTopUp),
    },
    {
      label: 'Allowance for settling and loss',
      figure: percent(table.allowance),
      source: sourceOf(table.allowance, start.allowance),
    },
    {
      label: 'Jobs that end up inside the range',
      figure: percent(table.promise),
      source: sourceOf(table.promise, start.promise),
    },
    { label: 'Step of the range', figure: table.step, source: sourceOf(table.step, start.step) },
  ]
}

type Way = keyof RateTable['measuring']
type Layer = keyof RateTable['lying']

function entriesOf(figures: Record<string, string>): [string, string][] {
  return Object.entries(figures).sort(([a], [b]) => (a < b ? -1 : 1))
}
