import { z } from 'zod'
import { figureFacts } from './row.ts'
import { inUnits, kindsOf, stepsOf } from './rows.ts'

type Units = 'us' | 'metric'
type Values = Record<string, unknown>

/**
 * What a part of the table is like to begin with: lists are empty, and what may be missing is. With `prices`, the
 * invented ones are filled in.
 */
export function startOf(part: z.ZodType, units: Units, prices = false): unknown {
  const facts = figureFacts.get(part)
  if (facts) {
    const { start = facts.before, invented = start } = facts
    return structuredClone(inUnits(prices ? invented : start, units))
  }
  if (part instanceof z.ZodNullable) return null
  if (part instanceof z.ZodArray) return []
  const values = stepsOf(part).flatMap(([step, inner]) => {
    const value = startOf(inner, units, prices)
    return value === undefined ? [] : [[step, value]]
  })
  return values.length > 0 ? Object.fromEntries(values) : undefined
}

/**
 * What is stored of a part of the table, with every figure there that came later, at what it was until then. Undefined
 * where nothing is stored of it and no figure of it says what it was.
 */
export function completed(part: z.ZodType, stored: unknown, units: Units): unknown {
  const facts = figureFacts.get(part)
  if (facts) return stored === undefined ? structuredClone(inUnits(facts.before, units)) : stored
  if (part instanceof z.ZodNullable)
    return stored ? completed(part.unwrap() as z.ZodType, stored, units) : null
  if (part instanceof z.ZodArray)
    return ((stored ?? []) as unknown[]).map(entry => completed(part.element as z.ZodType, entry, units))
  if (part instanceof z.ZodDiscriminatedUnion) {
    const kind = kindsOf(part).get((stored as { kind: string }).kind)
    return kind ? completed(kind, stored, units) : stored
  }
  if (!(part instanceof z.ZodObject)) return stored
  const all: Values = { ...(stored as Values | undefined) }
  for (const [step, inner] of stepsOf(part)) {
    const value = completed(inner, all[step], units)
    if (value !== undefined) all[step] = value
  }
  return stored === undefined && Object.keys(all).length === 0 ? undefined : all
}
