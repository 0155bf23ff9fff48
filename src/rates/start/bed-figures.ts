import { type StarterFinish, starterFinishes, starterTable } from '../../estimate/starter/starter.ts'
import { depthSources, weightSources } from '../../estimate/starter/starter-sources.ts'
import type { Finish, RateTable } from '../../estimate/table/rate-table.ts'
import { unitSystem } from '../../estimate/units/units.ts'
import { figureInWords } from '../../language/money-in-words.ts'
import { bulkInWords } from './rate-words.ts'
import { COMMON, INVENTED, named, percentInWords, type StartFigure } from './start-figure.ts'

const LAYERS = { bare: 'bare', thin: 'thin', fair: 'fair', thick: 'thick', unsure: 'not sure' } as const

/** What lies in a bed, what plants take up, how deep and how heavy a finish is. */
export function bedFigures(table: RateTable): StartFigure[] {
  const known = starterFinishes(table.units)
  return [
    ...lyingFigures(table),
    ...shareFigures(table),
    ...table.finishes.flatMap(finish => {
      const start = known.find(({ slug }) => slug === finish.slug)
      return start ? finishFigures(finish, start, table.units) : []
    }),
  ]
}

function lyingFigures(table: RateTable): StartFigure[] {
  const start = starterTable(table.units)
  const { depth } = unitSystem(table.units)
  const layers = Object.entries(LAYERS) as [keyof typeof LAYERS, string][]
  const either = { lyingTold: 'a depth told', lyingMeasured: 'a depth measured' } as const
  return [
    ...layers.map(([layer, words]) => ({
      key: `lying.${layer}`,
      label: `Lying there, ${words}`,
      words: `${table.lying[layer].m} ${depth}, give or take ${table.lying[layer].s}`,
      now: [table.lying[layer].m, table.lying[layer].s],
      start: [start.lying[layer].m, start.lying[layer].s],
      source: INVENTED,
      section: 'beds',
    })),
    ...(['lyingTold', 'lyingMeasured'] as const).map(key => ({
      key,
      label: `Lying there, ${either[key]}`,
      words: `give or take ${table[key]} ${depth}`,
      now: [table[key]],
      start: [start[key]],
      source: INVENTED,
      section: 'beds',
    })),
  ]
}

function shareFigures(table: RateTable): StartFigure[] {
  const start = starterTable(table.units)
  const inBeds = { source: INVENTED, section: 'beds' }
  return [
    ...(['open', 'half', 'full'] as const).map(planted => ({
      key: `planted.${planted}`,
      label: `Share that plants take up, ${planted}`,
      words: percentInWords(table.planted[planted]),
      now: [table.planted[planted]],
      start: [start.planted[planted]],
      ...inBeds,
    })),
    {
      key: 'thinnestTopUp',
      label: 'Thinnest top-up',
      words: `${table.thinnestTopUp} ${unitSystem(table.units).depth}`,
      now: [table.thinnestTopUp],
      start: [start.thinnestTopUp],
      ...inBeds,
    },
    {
      key: 'allowance',
      label: 'Allowance for settling and loss',
      words: percentInWords(table.allowance),
      now: [table.allowance],
      start: [start.allowance],
      ...inBeds,
    },
  ]
}

function finishFigures(finish: Finish, start: StarterFinish, units: RateTable['units']): StartFigure[] {
  const { depth: unit, weight } = unitSystem(units)
  const { least, usual, greatest } = finish.depth
  const heavy = finish.densityWet
  const sourceIn = (sources: Record<string, string>) => {
    const source = sources[finish.slug]
    return source ? named(source) : COMMON
  }
  const section = `finish.${finish.slug}`
  return [
    {
      key: `${section}.depth`,
      label: `${finish.name.en}, depth`,
      words: `${least} to ${greatest} ${unit}, ${usual} where none is asked for`,
      now: [least, usual, greatest],
      start: [start.depth.least, start.depth.usual, start.depth.greatest],
      source: sourceIn(depthSources),
      section,
    },
    {
      key: `${section}.weight`,
      label: `${finish.name.en}, weight when wet`,
      words:
        heavy === null
          ? 'not known'
          : `${figureInWords(heavy, 'en')} ${weight} per ${bulkInWords({ units })}`,
      now: heavy === null ? [] : [heavy],
      start: start.densityWet === null ? [] : [start.densityWet],
      source: sourceIn(weightSources),
      section,
    },
  ]
}
