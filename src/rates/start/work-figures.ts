import { starterTable } from '../../estimate/starter/starter.ts'
import { type StarterExtra, siteExtras, starterExtras } from '../../estimate/starter/starter-extras.ts'
import type { Extra, RateTable } from '../../estimate/table/rate-table.ts'
import { unitSystem } from '../../estimate/units/units.ts'
import { perInWords } from './rate-words.ts'
import { COMMON, INVENTED, percentInWords, type StartFigure, spanInWords } from './start-figure.ts'

/** What slows the laying, the crew hours of extras, and what is put on cost. */
export function workFigures(table: RateTable): StartFigure[] {
  const known = [...starterExtras(table.units), ...siteExtras(table.units)]
  return [
    ...layingFigures(table),
    ...table.extras.flatMap(extra => {
      const start = known.find(({ slug }) => slug === extra.slug)
      return start ? extraFigures(extra, start, table.units) : []
    }),
    ...costPlusFigures(table),
  ]
}

function layingFigures({ units, labour }: RateTable): StartFigure[] {
  const start = starterTable(units).labour
  const { length } = unitSystem(units)
  const carried = ({ free, each, adds }: RateTable['labour']['carry']) => [free, each, adds]
  return [
    ...(['half', 'full'] as const).map(planted => ({
      key: `labour.planted.${planted}`,
      label: `Laying takes longer, planted ${planted}`,
      words: `× ${labour.planted[planted]}`,
      now: [labour.planted[planted]],
      start: [start.planted[planted]],
      source: INVENTED,
      section: 'labour',
    })),
    {
      key: 'labour.carry',
      label: `Laying takes longer, for each ${labour.carry.each} ${length} beyond ${labour.carry.free}`,
      words: percentInWords(labour.carry.adds),
      now: carried(labour.carry),
      start: carried(start.carry),
      source: INVENTED,
      section: 'labour',
    },
    {
      key: 'labour.stair',
      label: 'Laying takes longer, for each stair',
      words: percentInWords(labour.stair),
      now: [labour.stair],
      start: [start.stair],
      source: INVENTED,
      section: 'labour',
    },
  ]
}

function extraFigures(extra: Extra, start: StarterExtra, units: RateTable['units']): StartFigure[] {
  const section = `extra.${extra.slug}`
  const hours: StartFigure = {
    key: `${section}.hours`,
    label: `${extra.name.en}, crew hours`,
    words: `${spanInWords(extra.crewHours)} h ${perInWords(extra.per, units)}`,
    now: [extra.crewHours.lower, extra.crewHours.upper],
    start: [start.crewHours.lower, start.crewHours.upper],
    source: INVENTED,
    section,
  }
  if (start.per !== 'lying') return [hours]
  const fluffing: StartFigure = {
    key: `${section}.fluffing`,
    label: 'How much looser old material lies on the truck',
    words: `× ${extra.fluffing}`,
    now: [extra.fluffing],
    start: [start.fluffing],
    source: COMMON,
    section,
  }
  return [hours, fluffing]
}

// It says nothing while no finish is priced by what it costs.
function costPlusFigures({ units, costPlus, finishes }: RateTable): StartFigure[] {
  if (finishes.every(finish => finish.pricedBy === 'rate')) return []
  const start = starterTable(units).costPlus
  return [
    {
      key: `costPlus.${costPlus.by}`,
      label: `Put on cost as a ${costPlus.by}`,
      words: percentInWords(costPlus.share),
      now: [costPlus.share],
      start: costPlus.by === start.by ? [start.share] : [],
      source: INVENTED,
      section: 'costs',
    },
  ]
}
