import { z } from 'zod'
import { between, name } from './table-figures.ts'
import type { Tax } from './tax.ts'

const rate = between(0, 1)
const kinds = z.object({
  finish: z.boolean(),
  laying: z.boolean(),
  extra: z.boolean(),
  travel: z.boolean(),
  other: z.boolean(),
})

export const taxSchema: z.ZodType<Tax> = z.object({
  name,
  prices: z.enum(['without', 'with']),
  rate,
  areas: z.array(z.object({ postcodes: z.array(z.string().trim().min(1)).min(1), rate })),
  taxed: z.object({ upkeep: kinds, new: kinds }),
  rounded: z.enum(['line', 'bill']),
  inRanges: z.boolean(),
  onPurchases: rate,
  purchasesGivenBack: z.boolean(),
})
