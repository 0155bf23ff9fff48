import type { z } from 'zod'
import { cautionCodes, isBuiltIn } from './caution.ts'
import { wageCost } from './crew.ts'
import { layerNamed } from './layer.ts'
import { type ExtraPack, type Pack, waysOf } from './pack.ts'
import { type Finish, type Measuring, type RateTable, rateFigures } from './rate-table.ts'
import { soldLacks } from './sold.ts'
import { canBePicked } from './substitutes.ts'

/** Checks a rate table read from a form or a file; lists every fault with its path. */
export const rateTableSchema = withRules(rateFigures)

/** Figures with the rules between them. */
export function withRules(figures: z.ZodObject): z.ZodType<RateTable> {
  const checked = figures as typeof rateFigures
  return checked.superRefine((table, context) => holdRules(table, context))
}

function holdRules(table: RateTable, context: z.RefinementCtx): void {
  const fault = (path: (string | number)[], message: string) =>
    context.addIssue({ code: 'custom', path, message })
  refuseTwice(table.finishes, ['finishes'], fault)
  refuseTwice(table.extras, ['extras'], fault)
  for (const list of ['finishes', 'extras'] as const)
    table[list].forEach(({ packs, pinned }, index) => {
      refuseTwice(packs, [list, index, 'packs'], fault)
      if (pinned !== null && !waysOf<Pack | ExtraPack>(packs).some(({ key }) => key === pinned))
        fault([list, index, 'pinned'], 'not one of its ways to buy')
    })
  table.tiers.forEach((from, index) => {
    const before = table.tiers[index - 1]
    if (before !== undefined && Number(from) <= Number(before))
      fault(['tiers', index], 'larger than the one before')
  })
  table.finishes.forEach((one, index) => {
    for (const figure of soldLacks(one))
      fault(['finishes', index, figure], 'needed for the unit it’s sold in')
    if (one.rates.length !== table.tiers.length + 1)
      fault(['finishes', index, 'rates'], 'one pair of rates for each size of job')
    if (one.pricedBy === 'cost' && !isCostKnown(one, table))
      fault(['finishes', index, 'pricedBy'], 'needs what it costs to buy, and your wage per labor hour')
  })
  table.extras.forEach(({ pricedBy }, index) => {
    if (pricedBy === 'cost' && wageCost(table) === null)
      fault(['extras', index, 'pricedBy'], 'needs your wage per labor hour')
  })
  table.people.forEach(({ name }, index) => {
    if (table.people.findIndex(other => other.name === name) !== index)
      fault(['people', index, 'name'], 'already used above')
  })
  refuseSubstitutes(table.finishes, fault)
  refuseLayers(table, fault)
  refuseUnnamedTaxes(table, fault)
  refuseUnknownCautions(table, fault)
  // Whichever of them a form is about, the fault stands beside what it can change.
  if (!table.finishes.some(canBePicked))
    table.finishes.forEach(({ offered }, index) => {
      fault(['finishes', index, offered ? 'soldOut' : 'offered'], NONE_TO_PICK)
    })
  refuseWorse(table, 'tape', 'paces', fault)
  refuseWorse(table, 'paces', 'eye', fault)
}

const NONE_TO_PICK = 'homeowners need at least one material that is shown and not sold out'

type AddFault = (path: (string | number)[], message: string) => void

function isCostKnown(one: Finish, table: RateTable): boolean {
  return wageCost(table) !== null && (one.packs.length > 0 || one.materialCost !== null)
}

function refuseTwice(things: { slug: string }[], path: (string | number)[], fault: AddFault): void {
  things.forEach((thing, index) => {
    if (things.findIndex(other => other.slug === thing.slug) !== index)
      fault([...path, index, 'slug'], 'already used above')
  })
}

function refuseSubstitutes(finishes: Finish[], fault: AddFault): void {
  finishes.forEach(({ slug, substitutes }, index) => {
    substitutes.forEach((other, place) => {
      const at = ['finishes', index, 'substitutes', place]
      if (other === slug) fault(at, `“${other}” can’t be its own substitute`)
      else if (!finishes.some(one => one.slug === other)) fault(at, `there is no finish “${other}”`)
      else if (substitutes.indexOf(other) !== place) fault(at, `“${other}” is already listed above`)
    })
  })
}

function refuseLayers(table: RateTable, fault: AddFault): void {
  table.finishes.forEach(({ slug, layers }, index) => {
    layers.forEach((layer, place) => {
      const at = (step: string) => ['finishes', index, 'layers', place, step]
      const named = layerNamed(layer.slug, table)
      if (layer.slug === slug) fault(at('slug'), `“${slug}” can’t lie beneath itself`)
      else if (!named) fault(at('slug'), `there is no finish, and no extra charged by area, “${layer.slug}”`)
      else if (layers.findIndex(other => other.slug === layer.slug) !== place)
        fault(at('slug'), `“${layer.slug}” is already listed above`)
      else if ('extra' in named && layer.depth !== null)
        fault(at('depth'), `“${layer.slug}” is an extra, so it has no depth`)
    })
  })
}

function refuseUnknownCautions(table: RateTable, fault: AddFault): void {
  const known = new Set<string>([...cautionCodes, ...table.cautions.map(({ code }) => code)])
  table.cautions.forEach(({ code, words }, index) => {
    for (const language of ['en', 'es'] as const) {
      const own = !isBuiltIn(code) || words.en !== null || words.es !== null
      if (own && words[language] === null)
        fault(['cautions', index, 'words', language], 'needs its words in both languages')
    }
  })
  for (const list of ['finishes', 'extras'] as const)
    table[list].forEach(({ cautions }, index) => {
      cautions.forEach((code, place) => {
        if (!known.has(code)) fault([list, index, 'cautions', place], `there is no caution “${code}”`)
      })
    })
}

function refuseUnnamedTaxes({ tax }: RateTable, fault: AddFault): void {
  if (tax === null) return
  const { second, newWork, areas } = tax
  for (const language of ['en', 'es'] as const) {
    const other = language === 'en' ? 'es' : 'en'
    if (second.rate !== null && second.name[language] === null)
      fault(['tax', 'second', 'name', language], 'a second tax needs its name')
    if (newWork.name[language] === null && newWork.name[other] !== null)
      fault(['tax', 'newWork', 'name', language], 'in both languages')
  }
  areas.forEach((area, index) => {
    if (area.second !== null && second.rate === null)
      fault(['tax', 'areas', index, 'second'], 'there is no second tax')
  })
}

// Otherwise measuring better could widen the range.
function refuseWorse(
  table: Pick<RateTable, 'measuring'>,
  better: Measuring,
  worse: Measuring,
  fault: AddFault,
): void {
  const [a, b] = [table.measuring[better], table.measuring[worse]]
  const shared = (one: typeof a) => Number(one.sigma) * Math.sqrt(Number(one.rho))
  const own = (one: typeof a) => Number(one.sigma) * Math.sqrt(1 - Number(one.rho))
  if (shared(a) > shared(b) || own(a) > own(b))
    fault(['measuring', better], `can’t be less exact than ${worse}, in the shared part or the rest`)
}
