import { type Choices, MOST_ADD_ONS, MOST_PICKS, noneTaken } from '../estimate/understood/choices.ts'
import { unitSystem } from '../estimate/units/units.ts'
import type { Errors } from '../http/posted.ts'
import { Decimal } from '../lib/decimal.ts'
import { choicesInWords } from './choice-words.ts'
import { type Effect, effectInWords, standing } from './effects.ts'
import type { Priced } from './pricing.ts'
import { type Made, variantOf } from './variants.ts'

interface Option {
  value: string
  label: string
}

/** What the form of a quote asks of choices. */
export interface ChoicesAsked {
  beds: Option[]
  finishes: Option[]
  extras: Option[]
  depthUnit: string
  mostPicks: number
  mostAddOns: number
  open: boolean
}

/** What may be offered beside a price, with the beds and rates that it is worked out from. */
export function choicesAsked({ job, rates }: Priced, offered: Choices | null, errors: Errors): ChoicesAsked {
  const { finishes, extras, units } = rates.body
  const named = (things: { slug: string; name: { en: string } }[], none: string) => [
    { value: '', label: none },
    ...things.map(({ slug, name }) => ({ value: slug, label: name.en })),
  ]
  return {
    beds: [
      { value: '', label: job.beds.length === 1 ? 'The bed' : 'All beds' },
      ...(job.beds.length === 1
        ? []
        : job.beds.map((_bed, index) => ({ value: String(index), label: `Bed ${index + 1}` }))),
    ],
    finishes: named(
      finishes.filter(({ soldOut }) => !soldOut),
      'The same material',
    ),
    extras: named(extras, 'None'),
    depthUnit: unitSystem(units).depth,
    mostPicks: MOST_PICKS,
    mostAddOns: MOST_ADD_ONS,
    open: offered !== null || Object.keys(errors).some(field => /^(picks|addOns)\./.test(field)),
  }
}

/** What each choice does to the total, and with costs to margin and pay per labor hour, taken alone. */
export function choiceEffects(
  priced: Priced,
  made: Made,
  choices: Choices | null,
  hasCosts: boolean,
): Effect[] {
  if (!choices) return []
  const table = priced.rates.body
  const words = choicesInWords(choices, priced.job.beds.length, table, 'en')
  const none = noneTaken(choices)
  const now = standing(priced, made, hoursOf(priced, made), hasCosts)
  const effect = (what: string, taken: typeof none): Effect => {
    const variant = variantOf(priced, made, choices, taken)
    if (!variant) return `${what}: can’t be priced for these beds.`
    const then = standing(variant.priced, variant.wanted, hoursOf(variant.priced, variant.wanted), hasCosts)
    return effectInWords(what, now, then, table.currency)
  }
  const only = (flags: boolean[], at: number) => flags.map((_flag, index) => index === at)
  return [
    ...words.picks.map(({ about, other }, index) =>
      effect(`${about}, ${other}`, { ...none, picks: only(none.picks, index) }),
    ),
    ...words.addOns.map((extra, index) => effect(extra, { ...none, addOns: only(none.addOns, index) })),
  ]
}

function hoursOf({ price }: Priced, { laborHours }: Made): Decimal {
  return new Decimal(laborHours ?? price.laborHoursTotal)
}
