import type { Finish } from '../estimate/table/rate-table.ts'
import { canBePicked } from '../estimate/table/substitutes.ts'
import { type Errors, FormFields } from '../http/form-fields.ts'
import { readFigure } from '../http/read-figure.ts'
import type { Handful, Rate } from './handful.ts'
import { readTravel } from './travel.ts'

const RATE_PLACES = 4

const MONEY_PLACES = 2

const HOURS_PLACES = 4

const MOST_TIERS = 5

/** Reads the handful of numbers from a posted form's flat fields; `errors` is empty when all is well. */
export function readHandful(
  body: unknown,
  offerable: Pick<Finish, 'slug' | 'offered' | 'soldOut'>[],
  extras: string[],
): { handful: Handful; errors: Errors } {
  const fields = new FormFields(body)
  const finishes = offerable.map(({ slug }) => slug)
  const tiers = readTiers(fields)
  const handful: Handful = {
    rates: Object.fromEntries(finishes.flatMap(slug => readColumns(fields, slug, tiers.length + 1))),
    extras: Object.fromEntries(
      extras.flatMap(slug => {
        const rate = readRate(fields, `extras.${slug}`)
        return rate ? [[slug, rate]] : []
      }),
    ),
    minimumCharge: fields.figure('minimumCharge', MONEY_PLACES, 'the minimum charge, or 0') ?? '0',
    tiers,
    crewHoursPerVolume: readCrewHours(fields),
    travel: readTravel(fields),
    costs: {
      crewHour: fields.optionalFigure('costs.crewHour', MONEY_PLACES),
      material: Object.fromEntries(
        finishes.map(slug => [slug, fields.optionalFigure(`material.${slug}`, MONEY_PLACES)]),
      ),
    },
  }
  const isGiven = (slug: string) => handful.rates[slug] !== undefined || hasFault(fields, slug)
  const toPick = offerable.filter(canBePicked).map(({ slug }) => slug)
  if (!finishes.some(isGiven))
    fields.errors[`rates.${finishes[0]}.0.lower`] = 'Give the rates of at least one finish.'
  else if (!toPick.some(isGiven))
    fields.errors[`rates.${toPick[0] ?? finishes[0]}.0.lower`] =
      'Give the rates of at least one finish that homeowners can pick: the others are not shown to them, or sold out.'
  return { handful, errors: fields.errors }
}

function readTiers(fields: FormFields): string[] {
  const typed = fields.text('tiers')
  if (typed === '') return []
  const sizes = typed.split(/[;\n]|,\s+/).filter(part => part.trim() !== '')
  const figures = sizes.map(part => readFigure(part, 2))
  const upward = figures.every(
    (size, index) => size !== null && Number(size) > Number(figures[index - 1] ?? 0),
  )
  if (upward && figures.length <= MOST_TIERS) return figures as string[]
  fields.errors.tiers = `Give up to ${MOST_TIERS} sizes, each larger than the one before, as 5; 10.`
  return []
}

function readColumns(fields: FormFields, slug: string, columns: number): [string, Rate[]][] {
  const rates: Rate[] = []
  for (let column = 0; column < columns; column++) {
    const rate = readRate(fields, `rates.${slug}.${column}`)
    if (rate) rates.push(rate)
    else if (column > 0 && rates.length > 0 && fields.typed[`rates.${slug}.${column}.lower`] !== undefined)
      fields.errors[`rates.${slug}.${column}.lower`] ??= 'Give this rate as well, or empty the whole row.'
  }
  return rates.length > 0 ? [[slug, rates]] : []
}

function readRate(fields: FormFields, name: string): Rate | null {
  const [lowerName, upperName] = [`${name}.lower`, `${name}.upper`]
  const given = [fields.text(lowerName), fields.text(upperName)]
  if (given.every(text => text === '')) return null
  const lower = fields.figure(lowerName, RATE_PLACES, 'the lower rate too')
  const upper = fields.figure(upperName, RATE_PLACES, 'the upper rate too')
  if (lower === null || upper === null) return null
  if (Number(lower) > Number(upper)) {
    fields.errors[upperName] = 'The upper rate can’t be less than the lower.'
    return null
  }
  if (Number(upper) > 0) return { lower, upper }
  fields.errors[upperName] = 'A rate of nothing isn’t a rate: leave both empty instead.'
  return null
}

function readCrewHours(fields: FormFields): string {
  const hours = fields.figure('crewHoursPerVolume', HOURS_PLACES, 'the crew hours, such as 0.75')
  if (hours !== null && Number(hours) > 0 && Number(hours) <= 100) return hours
  if (hours !== null) fields.errors.crewHoursPerVolume = 'Give the crew hours, more than 0 and at most 100.'
  return '1'
}

function hasFault(fields: FormFields, slug: string): boolean {
  return Object.keys(fields.errors).some(name => name.startsWith(`rates.${slug}.`))
}
