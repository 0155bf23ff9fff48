import { Decimal } from '../../lib/decimal.ts'
import type { Factor } from '../job/factors.ts'
import type { RateTable } from '../table/rate-table.ts'
import { unitSystem } from '../units/units.ts'

const SIGNS = {
  ft: 'ft',
  ft2: 'ft²',
  ft3: 'ft³',
  yd3: 'yd³',
  m: 'm',
  m2: 'm²',
  m3: 'm³',
  in: 'in',
  cm: 'cm',
} as const

/** Writes the figures of a worksheet: rounded to two places where they have more, grouped, with their unit. */
export interface Figures {
  plain(value: Decimal | string | number, places?: number): string
  length(value: Decimal): string
  depth(value: Decimal | string): string
  area(value: Decimal): string
  volume(value: Decimal): string
  bulk(value: Decimal | string): string
  weight(value: Decimal | string): string
  money(value: Decimal | string): string
  share(value: Decimal | string): string
  hours(value: Decimal | string): string
  trips(value: Decimal): string
  days(value: Decimal): string
  /** A distance driven. */
  far(value: Decimal): string
  /** A factor of an amount, with its unit. */
  factor(one: Factor): string
  /** ' ÷ 12', ' ÷ 100': from depths to lengths. */
  perLength: string
  /** ' ÷ 27' in US customary, nothing in metric: from volumes to bulk. */
  perBulk: string
}

// A table may tell hours for one foot of edge: printed shorter they wouldn't come to their amount. What has no end in
// decimals is worked out, for a whole bed, and there five places are far less than a cent.
const MOST_TOLD = 6
const HOURS = 5

export function figuresOf(table: RateTable): Figures {
  const system = unitSystem(table.units)
  const plain = (value: Decimal | string | number, places = 2) => {
    const [whole, decimals] = new Decimal(value).toDecimalPlaces(places).toFixed().split('.')
    const grouped = whole!.replace(/\B(?=(\d{3})+$)/g, ',')
    return (decimals ? `${grouped}.${decimals}` : grouped).replace('-', '−')
  }
  const unit = (sign: string) => (value: Decimal | string) => `${plain(value)} ${sign}`
  const hours = (value: Decimal | string) => {
    const exact = new Decimal(value)
    return `${plain(exact, exact.decimalPlaces() > MOST_TOLD ? HOURS : MOST_TOLD)} h`
  }
  const money = (value: Decimal | string) => moneyOf(value, table.currency)
  const share = (value: Decimal | string) => `${plain(new Decimal(value).times(100))}%`
  return {
    plain,
    length: unit(SIGNS[system.length]),
    depth: unit(SIGNS[system.depth]),
    area: unit(SIGNS[system.area]),
    volume: unit(SIGNS[system.volume]),
    bulk: unit(SIGNS[system.bulk]),
    weight: unit(system.weight),
    money,
    share,
    hours,
    trips: value => (value.eq(1) ? '1 trip' : `${plain(value)} trips`),
    days: value => (value.eq(1) ? '1 day' : `${plain(value)} days`),
    far: unit(system.name === 'us' ? 'mi' : 'km'),
    factor: one => {
      const value = one.value.div(one.per)
      switch (one.unit) {
        case 'money':
          return money(value.toDecimalPlaces(one.is === 'bought' ? 2 : 4))
        case 'share':
          return share(value)
        case 'h':
          return hours(value)
        case 'bed':
        case 'bale':
        case 'ton':
        case 'tonne':
          return plain(value) === '1' ? `1 ${one.unit}` : `${plain(value)} ${one.unit}s`
        case 'number':
          return plain(value, 4)
        default:
          return `${plain(value)} ${SIGNS[one.unit]}`
      }
    },
    perLength: ` ÷ ${system.depthsPerLength}`,
    perBulk: system.volumesPerBulk.eq(1) ? '' : ` ÷ ${system.volumesPerBulk}`,
  }
}

function moneyOf(value: Decimal | string, currency: string): string {
  const amount = new Decimal(value)
  const format = new Intl.NumberFormat('en-US', {
    style: 'currency',
    currency,
    maximumFractionDigits: Math.min(Math.max(2, amount.decimalPlaces()), 4),
  })
  return format.format(amount.toFixed() as `${number}`).replace('-', '−')
}
