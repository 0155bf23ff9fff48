import { Decimal, one } from '../../lib/decimal.ts'
import { type Ground, rollNeeded, stripsOver } from '../packs/strips.ts'
import type { Roll } from '../table/pack.ts'
import type { Figures } from './figures.ts'

/** How many strips of a roll cover each ground, and how many rolls all of them are with what is wasted, `wasted` in words. */
export function stripSteps(grounds: Ground[], roll: Roll, wasted: string, waste: string, f: Figures): string {
  const [width, overlap] = [new Decimal(roll.width), new Decimal(roll.overlap)]
  const length = rollNeeded(grounds, roll)
  return [
    `Strips ${f.length(width)} wide, ${f.length(overlap)} over the next`,
    [
      ...grounds.map(ground => stripsOf(ground, roll, f)),
      ...(grounds.length > 1 ? [`${f.length(length)} in all`] : []),
      `${f.length(length)}${wasted} ÷ ${f.length(new Decimal(roll.length))} = ${f.plain(length.times(one.plus(waste)).div(roll.length))}`,
    ].join('; '),
  ].join(': ')
}

function stripsOf(ground: Ground, roll: Roll, f: Figures): string {
  const { long, short, count } = ground
  const [width, overlap] = [new Decimal(roll.width), new Decimal(roll.overlap)]
  const across = short.lte(width)
    ? `${f.length(short)} across`
    : `(${f.length(short)} − ${f.length(overlap)}) ÷ (${f.length(width)} − ${f.length(overlap)}) = ${f.plain(short.minus(overlap).div(width.minus(overlap)))}`
  const alike = count === 1 ? '' : ` × ${count}`
  return `${across}, so ${f.plain(stripsOver(ground, roll))} × ${f.length(long)}${alike} = ${f.length(rollNeeded([ground], roll))}`
}
