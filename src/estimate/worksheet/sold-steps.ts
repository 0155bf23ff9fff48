import { Decimal } from '../../lib/decimal.ts'
import { amountSold } from '../job/sold-factors.ts'
import type { Finish, RateTable } from '../table/rate-table.ts'
import { soldIn } from '../table/sold.ts'
import { unitSystem } from '../units/units.ts'
import type { Figures } from './figures.ts'

/** From a volume in ft³|m³ to what a finish is sold in: ' ÷ 5 ft³ a bale = 30 bales'; '' where it is that volume. */
export function soldSteps(volume: Decimal, finish: Finish, table: RateTable, f: Figures): string {
  const { weightPerTon } = unitSystem(table.units)
  const is = ` = ${f.factor(amountSold(volume, finish, table))}`
  switch (finish.saleUnit) {
    case 'volume':
      return f.perBulk === '' ? '' : `${f.perBulk}${is}`
    case 'bale': {
      const { volume: each, per } = soldIn(finish, table)
      return ` ÷ ${f.volume(each.div(per))} a bale${is}`
    }
    case 'ton':
      return `${f.perBulk} × ${f.weight(finish.soldDensity!)} ÷ ${f.weight(weightPerTon)}${is}`
    case 'area':
      return ` × ${unitSystem(table.units).depthsPerLength} ÷ ${f.depth(finish.soldDepth!)}${is}`
    default:
      return finish.saleUnit satisfies never
  }
}

/** What one of the units is that a finish is sold in, ' (20 ft² at 3 in a bale)'; '' where nobody has to be told. */
export function soldUnitSteps(finish: Finish, f: Figures): string {
  switch (finish.saleUnit) {
    case 'volume':
      return ''
    case 'bale':
      return ` (${f.area(new Decimal(finish.baleCovers!))} at ${f.depth(finish.soldDepth!)} a bale)`
    case 'ton':
      return ` (${f.weight(finish.soldDensity!)} per ${f.bulk('1').replace('1 ', '')})`
    case 'area':
      return ` (at ${f.depth(finish.soldDepth!)})`
    default:
      return finish.saleUnit satisfies never
  }
}
