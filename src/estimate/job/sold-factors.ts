import { type Decimal, middleOf, one } from '../../lib/decimal.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { isRatedAsSold, soldIn } from '../table/sold.ts'
import { unitSystem } from '../units/units.ts'
import { type Factor, factor } from './factors.ts'

/** So much of a finish, told in ft³|m³, as a factor in the unit that it is sold in. */
export function amountSold(volume: Decimal, finish: Finish, table: RateTable): Factor {
  const sold = soldIn(finish, table)
  return factor(sold.per === one ? volume : volume.times(sold.per), sold.unit, { per: sold.volume })
}

/**
 * What so much of a finish, told in ft³|m³, comes to by the middle of one of its rates: the amount in the unit that it is
 * sold in, how many yd³|m³ one of these is where the rate was typed for each of them, and the rate.
 */
export function amountAtRate(
  volume: Decimal,
  finish: Finish,
  column: number,
  table: RateTable,
): [amount: Factor, ...Factor[]] {
  const between = finish.rates[column]!
  const rate = factor(middleOf(between), 'money', { between })
  const amount = amountSold(volume, finish, table)
  if (finish.saleUnit === 'volume' || isRatedAsSold(finish)) return [amount, rate]
  const { bulk, volumesPerBulk } = unitSystem(table.units)
  const sold = soldIn(finish, table)
  return [amount, factor(sold.volume, bulk, { per: sold.per.times(volumesPerBulk) }), rate]
}
