import { z } from 'zod'
import type { ExtraPack, Pack } from './pack.ts'
import { aboveZero, figure, name, slug } from './table-figures.ts'

const prices = z
  .array(z.object({ from: figure, each: figure }))
  .min(1)
  .superRefine((list, context) => {
    list.forEach(({ from }, index) => {
      const before = list[index - 1]
      if (before ? Number(from) <= Number(before.from) : Number(from) !== 0)
        context.addIssue({
          code: 'custom',
          path: [index, 'from'],
          message: before ? 'larger than the one before' : 'the first price holds from 0',
        })
    })
  })

const bought = {
  slug,
  name,
  prices,
  least: figure,
  step: aboveZero,
  collected: z.boolean(),
  delivered: z.object({ fee: figure, freeFrom: figure.nullable() }).nullable(),
}

const anyWay = (pack: { collected: boolean; delivered: unknown }) => pack.collected || pack.delivered !== null
const someWay = { path: ['collected'], message: 'collected, delivered or both' }

/** Checks the ways in which a finish is bought. */
export const packsSchema: z.ZodType<Pack[]> = z.array(
  z
    .discriminatedUnion('kind', [
      z.object({ ...bought, kind: z.literal('bag'), holds: aboveZero }),
      z.object({ ...bought, kind: z.literal('bale'), covers: aboveZero, deep: aboveZero }),
      z.object({ ...bought, kind: z.literal('bulk') }),
      z.object({ ...bought, kind: z.literal('weighed'), density: aboveZero }),
    ])
    .refine(anyWay, someWay),
)

/** Checks the ways in which what an extra needs is bought. */
export const extraPacksSchema: z.ZodType<ExtraPack[]> = z.array(
  z
    .discriminatedUnion('kind', [
      z
        .object({ ...bought, kind: z.literal('roll'), width: aboveZero, length: aboveZero, overlap: figure })
        .refine(roll => Number(roll.overlap) < Number(roll.width), {
          path: ['overlap'],
          message: 'less than the width',
        }),
      z.object({
        ...bought,
        kind: z.literal('piece'),
        length: aboveZero,
        stakes: figure,
        stakeEach: figure,
      }),
    ])
    .refine(anyWay, someWay),
)
