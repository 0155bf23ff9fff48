import { inventedPrices, type StarterPrices } from '../../estimate/starter/starter-prices.ts'
import type { Finish, RateTable, Span } from '../../estimate/table/rate-table.ts'
import { moneyInWords } from '../../language/money-in-words.ts'
import { bulkInWords, perInWords } from './rate-words.ts'
import { asOneText, INVENTED, type StartFigure, spanInWords } from './start-figure.ts'

/** The handful of numbers, where the starter list has prices for them. */
export function priceFigures(table: RateTable): StartFigure[] {
  const { units, currency, minimumCharge, labour } = table
  const invented = inventedPrices(units)
  const bulk = bulkInWords({ units })
  const money = (amount: string) => moneyInWords(amount, currency, 'en', { whole: true, exact: true })
  const span = (rate: Span) => spanInWords(rate, money)
  return [
    ...table.finishes.flatMap(finish => rateFigure(finish, invented, rate => `${span(rate)} per ${bulk}`)),
    ...table.extras.flatMap((extra): StartFigure[] => {
      const start = invented.extras[extra.slug]
      if (!start) return []
      return [
        {
          key: `extra.${extra.slug}.price`,
          label: `${extra.name.en}, price`,
          words: `${span(extra)} ${perInWords(extra.per, units)}`,
          now: [extra.lower, extra.upper],
          start: [start.lower, start.upper],
          source: INVENTED,
          section: `extra.${extra.slug}`,
        },
      ]
    }),
    {
      key: 'minimumCharge',
      label: 'Minimum charge for a job',
      words: money(minimumCharge),
      now: [minimumCharge],
      start: [invented.minimumCharge],
      source: INVENTED,
      section: 'prices',
    },
    {
      key: 'labour.spread',
      label: `Crew hours for a ${bulk}`,
      words: `${spanInWords(labour.spread)} h`,
      now: [labour.spread.lower, labour.spread.upper],
      start: [invented.crewHoursPerVolume, invented.crewHoursPerVolume],
      source: INVENTED,
      section: 'labour',
    },
  ]
}

// A new size of job begins with the rates of the one before it: any column may still be what it started as.
function rateFigure(
  finish: Finish,
  { rates }: StarterPrices,
  inWords: (rate: Span) => string,
): StartFigure[] {
  const invented = rates[finish.slug]
  if (!invented || finish.pricedBy !== 'rate') return []
  const figures = ({ lower, upper }: Span) => [lower, upper]
  const isInvented = (rate: Span) => asOneText(figures(rate)) === asOneText(figures(invented))
  const now = finish.rates.find(isInvented) ?? finish.rates[0]!
  return [
    {
      key: `finish.${finish.slug}.rates`,
      label: `${finish.name.en}, price`,
      words: inWords(now),
      now: figures(now),
      start: figures(invented),
      source: INVENTED,
      section: `finish.${finish.slug}`,
    },
  ]
}
