import { jobQuantities } from '../estimate/job/quantities.ts'
import { earningsOf, floorsMissed, laborCosts } from '../estimate/price/cost.ts'
import { costWith, type Price } from '../estimate/price/firm-price.ts'
import { withCrew } from '../estimate/table/crew.ts'
import type { RateTable } from '../estimate/table/rate-table.ts'
import { soldIn } from '../estimate/table/sold.ts'
import { type Q, unitSystem } from '../estimate/units/units.ts'
import { moneyInWords } from '../language/money-in-words.ts'
import { cents, Decimal } from '../lib/decimal.ts'
import { floorInWords } from '../rates/floor-in-words.ts'
import type { Priced } from './pricing.ts'

/** One figure with its unit, as the figures partial shows it. */
export interface FigureView {
  label: string
  value: string
  unit?: string
  note?: string
  total?: boolean
}

const UNITS = {
  ft: 'ft',
  ft2: 'ft²',
  ft3: 'ft³',
  yd3: 'yd³',
  m: 'm',
  m2: 'm²',
  m3: 'm³',
  bed: 'beds',
  bale: 'bales',
  ton: 'tons',
  tonne: 'tonnes',
}

/** Area, volume in place and to order, and the labor hours of every task. */
export function quantityFigures({ job, price, rates }: Priced): FigureView[] {
  const table = rates.body
  const { area } = unitSystem(table.units)
  return [
    { label: 'Area', value: fixed(jobQuantities(job, table).area.toFixed(4), 0), unit: UNITS[area] },
    ...inPlaceFigures(price, table),
    ...price.toOrder.map(({ finish, amount }) => amountFigure(finish, amount, 'to order', table)),
    ...price.laborHours.map(({ task, hours }) => ({
      label: `Labor hours, ${taskName(task, table.extras)}`,
      value: fixed(hours, 2),
      unit: 'h',
    })),
  ]
}

// In one sum where all of it is sold by its volume.
function inPlaceFigures(price: Price, table: RateTable): FigureView[] {
  const { bulk, volumesPerBulk } = unitSystem(table.units)
  const laid = price.lines.flatMap(({ kind, slug, quantity }) =>
    kind === 'finish' && slug && quantity ? [{ slug, quantity }] : [],
  )
  if (laid.some(({ quantity }) => quantity.unit !== bulk))
    return laid.map(({ slug, quantity }) => amountFigure(slug, quantity, 'in place', table))
  const inPlace = new Decimal(price.inPlace.value).div(volumesPerBulk).toFixed(4)
  return [{ label: 'Volume in place', value: fixed(inPlace, 2), unit: UNITS[bulk] }]
}

function amountFigure(slug: string, { value, unit }: Q, where: string, table: RateTable): FigureView {
  return {
    label: `${nameOf(table.finishes, slug)} ${where}`,
    value: fixed(value, 2),
    unit: `${UNITS[unit]}${deepOf(slug, table)}`,
  }
}

// How deep what is sold by its area lies.
function deepOf(slug: string, table: RateTable): string {
  const { deep } = soldIn(table.finishes.find(finish => finish.slug === slug)!, table)
  return deep === null ? '' : ` at ${deep} ${unitSystem(table.units).depth}`
}

/** What a task is called in a line, "laying". */
function taskName(task: string, extras: { slug: string; name: { en: string } }[]): string {
  switch (task) {
    case 'spread':
      return 'spreading'
    case 'trip':
      return 'picking up'
    case 'set-up':
      return 'setup'
    case 'drive':
      return 'driving'
    case 'least':
      return 'missing to your least'
    default:
      return nameOf(extras, task).toLowerCase()
  }
}

function nameOf(things: { slug: string; name: { en: string } }[], slug: string): string {
  return things.find(thing => thing.slug === slug)?.name.en ?? slug
}

const BEFORE_LABOR = [
  ['material', 'Material'],
  ['purchaseTax', 'Sales tax on purchases'],
  ['delivery', 'Delivery'],
] as const
const AFTER_LABOR = [
  ['truck', 'Truck'],
  ['dump', 'Dump fees'],
  ['overhead', 'Overhead'],
] as const

/** What a quote earns, what it costs piece by piece, and the owner's floors that it falls under. */
export interface MoneyView {
  /** Whether a cost is missing, which whoever looks could put in. */
  asksForCosts: boolean
  earnings: FigureView[]
  costs: FigureView[]
  warnings: string[]
}

/**
 * Of a quote of `net`, before tax: the price per labor hour, and once every cost is known the margin, what a labor hour
 * earns and the pieces of the cost, with the labor hours as the contractor has them. Nothing while the price can't be told,
 * and nothing at all to somebody who sees no costs.
 */
export function moneyFigures(
  priced: Priced,
  net: string | null,
  laborHours: string | null,
  hasCosts: boolean,
): MoneyView {
  const { price, rates, terms } = priced
  const { currency } = rates.body
  const asksForCosts = hasCosts && price.costs === null
  if (net === null || !hasCosts) return { asksForCosts, earnings: [], costs: [], warnings: [] }
  const hours = new Decimal(laborHours ?? price.laborHoursTotal)
  const money = (amount: Decimal | string) => moneyInWords(cents(amount), currency, 'en')
  const perHour: FigureView[] = hours.gt(0)
    ? [{ label: 'Price per labor hour', value: money(new Decimal(net).div(hours)) }]
    : []
  if (price.costs === null) return { asksForCosts, earnings: perHour, costs: [], warnings: [] }
  const figures: FigureView[] = []
  const earned: FigureView[] = []
  const costs = costWith(hours, priced, rates.body)!
  const earnings = earningsOf(new Decimal(net), costs, hours)
  const line = (label: string, amount: Decimal | string) =>
    Number(amount) === 0 ? [] : [{ label, value: money(amount) }]
  figures.push(
    ...BEFORE_LABOR.flatMap(([piece, label]) => line(label, costs[piece])),
    ...laborFigures(hours, withCrew(rates.body, terms.crew)).flatMap(({ label, amount }) =>
      line(label, amount),
    ),
    ...AFTER_LABOR.flatMap(([piece, label]) => line(label, costs[piece])),
    { label: 'Cost', value: money(costs.total), total: true, note: 'what you order, and the labor hours' },
    {
      label: 'Margin',
      value: money(new Decimal(net).minus(costs.total)),
      note: 'price before tax, less cost',
    },
  )
  if (earnings.margin !== null)
    earned.push({
      label: 'Margin',
      value: fixed(earnings.margin.times(100).toFixed(4), 1),
      unit: '%',
    })
  if (earnings.payPerLaborHour !== null)
    earned.push({
      label: 'Pay per labor hour',
      value: money(earnings.payPerLaborHour),
      note: 'what’s left after everything but wages',
    })
  const warnings = floorsMissed(earnings, rates.body).map(floor => floorInWords(floor, rates.body))
  return { asksForCosts, earnings: [...earned, ...perHour], costs: figures, warnings }
}

// Man by man where people are listed: the hours of each, and what is paid on top.
function laborFigures(hours: Decimal, table: RateTable): { label: string; amount: Decimal }[] {
  return laborCosts(hours, table).flatMap(({ name, count, hours, wage, wages, onTop }) => {
    const each = moneyInWords(wage.toFixed(), table.currency, 'en', { exact: true })
    const who = name === '' ? 'Labor' : count.eq(1) ? name : `${count.toFixed()} × ${name}`
    return [
      { label: `${who}, ${fixed(hours.toFixed(4), 2)} h at ${each}`, amount: wages },
      { label: `${name === '' ? 'Payroll' : `${name}, payroll`} taxes and insurance`, amount: onTop },
    ]
  })
}

function fixed(value: string, decimals: number): string {
  return new Intl.NumberFormat('en-US', {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
  }).format(value as `${number}`)
}
