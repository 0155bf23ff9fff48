import type { Deps } from '../deps.ts'
import {
  type Choices,
  noneTaken,
  type Taken,
  takenInDigits,
  takenOf,
} from '../estimate/understood/choices.ts'
import { Conflict } from '../http/errors.ts'
import type { Typed } from '../http/posted.ts'
import { t } from '../language/catalogue.ts'
import type { Language } from '../language/language.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { Decimal } from '../lib/decimal.ts'
import { choicesInWords, pickedInWords } from '../quotes/choice-words.ts'
import { findVariant, findVariantTotals, type QuoteWithLines } from '../quotes/queries.ts'
import { requireVersion } from '../rates/standing.ts'
import type { OpenedLink } from './page.ts'

interface Way {
  value: string
  label: string
  hint: string
  live: true
}

/** The choices of a price as the page offers them, each with what it changes as the others stand. */
export interface ChoicesView {
  picks: { name: string; about: string; ways: Way[]; value: string }[]
  addOns: { name: string; label: string; hint: string; checked: boolean }[]
}

/** A field that says a form had choices in it: boxes that aren't ticked say nothing. */
const SAYS = 'choose'

/** Whether anything was picked there, be it nothing of all that is offered. */
export function hasPicked(typed: Typed): boolean {
  return typed[SAYS] !== undefined || typed.picks !== undefined
}

/**
 * The same link with its quote as it is with what was picked, in an address or a form; as it stands without any. Of a
 * quote without choices, or accepted, nothing changes.
 * @throws {Conflict} when those picks are of other choices
 */
export async function withPicks(deps: Deps, link: OpenedLink, typed: Typed): Promise<OpenedLink> {
  const { quote } = link
  if (!quote.choices || quote.accepted_at) return link
  const taken = takenIn(typed, quote.choices)
  const variant = taken && (await findVariant(deps.db, quote.id, takenInDigits(taken)))
  if (!variant) throw new Conflict('choose.again')
  return { ...link, quote: quoteAs(quote, variant) }
}

function takenIn(typed: Typed, choices: Choices): Taken | undefined {
  // In an address a name may stand twice.
  if (typed.picks !== undefined)
    return typeof typed.picks === 'string' ? takenOf(typed.picks, choices) : undefined
  const { picks, addOns } = noneTaken(choices)
  return {
    picks: picks.map((_no, index) => typed[`pick.${index}`] === '1'),
    addOns: addOns.map((_no, index) => typed[`add.${index}`] === 'yes'),
  }
}

/** A quote as it is with one combination of its choices. */
export function quoteAs(
  quote: QuoteWithLines,
  variant: NonNullable<Awaited<ReturnType<typeof findVariant>>>,
): QuoteWithLines {
  const { picks: picked, job, understood, tax, total, labor_hours, labor_hours_worked_out, lines } = variant
  return {
    ...{ ...quote, picked, job, understood, tax, total, labor_hours, labor_hours_worked_out },
    lines: lines.map(({ quantity = null, unit = null, rate = null, reason = null, ...line }) => ({
      ...line,
      ...{ quantity, unit, rate, reason },
      slug: line.slug ?? null,
      description: line.description ?? null,
      worked_out: line.worked_out ?? null,
    })),
  }
}

/** What may be picked beside a price that waits for its answer; null where there is nothing to pick. */
export async function viewChoices(
  deps: Deps,
  { quote, state }: OpenedLink,
  language: Language,
): Promise<ChoicesView | null> {
  const { choices, picked } = quote
  const taken = choices && picked !== null ? takenOf(picked, choices) : undefined
  if (!choices || !taken || (state !== 'open' && state !== 'change')) return null
  const { body: table } = await requireVersion(deps, quote.rate_table_id)
  const words = choicesInWords(choices, quote.job.beds.length, table, language)
  const totals = await findVariantTotals(deps.db, quote.id)
  const totalOf = (one: Taken) => new Decimal(totals.get(takenInDigits(one))!)
  const byOf = (kind: keyof Taken, at: number) => {
    const [without, withIt] = [false, true].map(is =>
      totalOf({ ...taken, [kind]: taken[kind].map((was, index) => (index === at ? is : was)) }),
    )
    return byInWords(withIt!.minus(without!), quote.currency, language)
  }
  return {
    picks: words.picks.map(({ about, asIs, other }, index) => ({
      name: `pick.${index}`,
      about,
      ways: [
        { value: '0', label: asIs, hint: '', live: true },
        { value: '1', label: other, hint: byOf('picks', index), live: true },
      ],
      value: taken.picks[index] ? '1' : '0',
    })),
    addOns: words.addOns.map((label, index) => ({
      name: `add.${index}`,
      label,
      hint: byOf('addOns', index),
      checked: taken.addOns[index]!,
    })),
  }
}

function byInWords(by: Decimal, currency: string, language: Language): string {
  if (by.isZero()) return t(language, 'choose.same')
  const amount = moneyInWords(by.abs().toFixed(2), currency, language)
  return t(language, by.gt(0) ? 'choose.more' : 'choose.less', { amount })
}

/** What was picked of a quote, a line each. */
export async function viewPicked(deps: Deps, quote: QuoteWithLines, language: Language): Promise<string[]> {
  const { body: table } = await requireVersion(deps, quote.rate_table_id)
  return pickedInWords(quote, table, language)
}
