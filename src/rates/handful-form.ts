import type { Finish } from '../estimate/table/rate-table.ts'
import { canBePicked } from '../estimate/table/substitutes.ts'
import type { FormFields } from '../http/form-fields.ts'
import type { FormReading } from '../http/posted.ts'
import { readFigure } from '../http/read-figure.ts'
import type { Handful, Rate } from './handful.ts'
import { readTravel } from './travel.ts'

const RATE_PLACES = 4

const MONEY_PLACES = 2

const HOURS_PLACES = 4

const MOST_TIERS = 5

const NONE_TO_PICK =
  'Give rates for at least one material that homeowners can pick. The others are sold out or not shown.'

type Offerable = Pick<Finish, 'slug' | 'offered' | 'soldOut'>

/** Reads the form of the rates, with the version that it was filled in from. */
export function readRates(
  fields: FormFields,
  offerable: Offerable[],
  extras: string[],
): FormReading<{ version: number; handful: Handful }> {
  return fields.reading({
    version: fields.carried('version'),
    handful: readHandful(fields, offerable, extras),
  })
}

/** Reads the handful of numbers from a form that may hold more. */
export function readHandful(fields: FormFields, offerable: Offerable[], extras: string[]): Handful {
  const finishes = offerable.map(({ slug }) => slug)
  const tiers = readTiers(fields)
  const handful: Handful = {
    rates: Object.fromEntries(
      finishes.flatMap(slug => {
        const rates = readColumns(fields.group(`rates.${slug}`), tiers.length + 1)
        return rates.length > 0 ? [[slug, rates]] : []
      }),
    ),
    extras: Object.fromEntries(
      extras.flatMap(slug => {
        const rate = readRate(fields.group(`extras.${slug}`))
        return rate ? [[slug, rate]] : []
      }),
    ),
    minimumCharge:
      fields.figure('minimumCharge', { places: MONEY_PLACES, missing: 'Give the minimum charge, or 0.' }) ??
      '0',
    tiers,
    laborHoursPerVolume: readLaborHours(fields),
    travel: readTravel(fields),
    costs: {
      wage: fields.figure('costs.wage', { places: MONEY_PLACES }),
      material: Object.fromEntries(
        finishes.map(slug => [slug, fields.figure(`material.${slug}`, { places: MONEY_PLACES })]),
      ),
    },
  }
  const isGiven = (slug: string) => handful.rates[slug] !== undefined || hasFault(fields, slug)
  const toPick = offerable.filter(canBePicked).map(({ slug }) => slug)
  if (!finishes.some(isGiven))
    fields.fault(`rates.${finishes[0]}.0.lower`, 'Give rates for at least one material.')
  else if (!toPick.some(isGiven)) fields.fault(`rates.${toPick[0] ?? finishes[0]}.0.lower`, NONE_TO_PICK)
  return handful
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
  fields.fault('tiers', `Give up to ${MOST_TIERS} sizes, each larger than the one before, like 5; 10.`)
  return []
}

function readColumns(row: FormFields, columns: number): Rate[] {
  const rates: Rate[] = []
  for (let column = 0; column < columns; column++) {
    const rate = readRate(row.group(`${column}`))
    if (rate) rates.push(rate)
    else if (rates.length > 0 && row.has(`${column}.lower`))
      row.fault(`${column}.lower`, 'Give this rate too, or empty the whole row.')
  }
  return rates
}

function readRate(pair: FormFields): Rate | null {
  if (pair.text('lower') === '' && pair.text('upper') === '') return null
  const lower = pair.figure('lower', { places: RATE_PLACES, missing: 'Give the lower rate too.' })
  const upper = pair.figure('upper', { places: RATE_PLACES, missing: 'Give the upper rate too.' })
  if (lower === null || upper === null) return null
  if (Number(lower) > Number(upper)) pair.fault('upper', 'The upper rate can’t be less than the lower.')
  else if (Number(upper) > 0) return { lower, upper }
  else pair.fault('upper', 'The rate can’t be 0. Leave both empty instead.')
  return null
}

function readLaborHours(fields: FormFields): string {
  const hours = fields.figure('laborHoursPerVolume', {
    places: HOURS_PLACES,
    above: 0,
    most: 100,
    missing: 'Give the labor hours, such as 0.75.',
    outside: 'Give the labor hours, more than 0 and at most 100.',
  })
  return hours ?? '1'
}

function hasFault(fields: FormFields, slug: string): boolean {
  return Object.keys(fields.errors).some(name => name.startsWith(`rates.${slug}.`))
}
