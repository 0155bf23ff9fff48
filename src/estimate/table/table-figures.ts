import { z } from 'zod'

/** A figure of the rate table: a plain decimal of zero or more. */
export const figure = z.string().regex(/^\d{1,9}(\.\d{1,9})?$/, 'a figure such as 12 or 12.50')
export const aboveZero = figure.refine(text => Number(text) > 0, 'more than zero')
export const between = (least: number, greatest: number) =>
  figure.refine(text => Number(text) >= least && Number(text) <= greatest, `from ${least} to ${greatest}`)
export const slug = z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'small letters, digits and hyphens')
export const name = z.object({ en: z.string().trim().min(1).max(60), es: z.string().trim().min(1).max(60) })

/** A lower and an upper figure, in that order. */
export const span = z
  .object({ lower: figure, upper: figure })
  .refine(upward, { path: ['upper'], message: 'not less than the lower rate' })

export function upward(pair: { lower: string; upper: string }): boolean {
  return Number(pair.lower) <= Number(pair.upper)
}
