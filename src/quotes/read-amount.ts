import { readFigure } from '../http/read-figure.ts'
import { cents } from '../lib/decimal.ts'

/** Reads an amount of money that may be below zero, "-1,250.50" as '-1250.50'; null when it is none. */
export function readAmount(typed: string): string | null {
  const [, sign, rest] = /^\s*([-−–]?)\s*(.*)$/s.exec(typed)!
  const figure = readFigure(rest!, 2)
  return figure === null ? null : cents(`${sign && figure !== '0' ? '-' : ''}${figure}`)
}
