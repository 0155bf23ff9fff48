import type { Decimal } from '../../lib/decimal.ts'

/** A figure for a path: a ten-thousandth of a foot or metre is finer than any drawing. */
export function pathNumber(value: Decimal | number): number {
  return Math.round(Number(value) * 10_000) / 10_000
}

export function ellipsePath(x: number, y: number, across: number, down: number): string {
  const [left, right] = [pathNumber(x - across), pathNumber(x + across)]
  const arc = `A${pathNumber(across)} ${pathNumber(down)} 0 1 1 `
  return `M${left} ${pathNumber(y)}${arc}${right} ${pathNumber(y)}${arc}${left} ${pathNumber(y)}Z`
}
