import { z } from 'zod'
import { once } from '../../lib/once.ts'
import { type Facts, figureFacts, type PerUnits, type Together, togetherFacts } from './row.ts'

/** A figure of the catalogue with its path: 'labor.carry.free', 'finishes.*.depth.least'. */
export interface Row extends Facts {
  path: string
  /** Whether it may be unknown, null; or left out altogether. */
  empty: 'null' | 'absent' | false
}

/** Figures that are looked at as one, with their paths. */
export interface TogetherRow extends Together {
  path: string
  rows: Row[]
}

/** Every figure within a part of the schema, with its path from there. */
export const rowsOf = once((part: z.ZodType) => walk(part, ''))

/** Those that aren't of a list within it. */
export const ownRows = once((part: z.ZodType) =>
  rowsOf(part).filter(({ path }) => !path.split('.').includes('*')),
)

/** Every part whose figures are looked at as one, and every other figure that is looked at; none within a list, unless all of the list is one. */
export const togetherOf = once((part: z.ZodType) => walkTogether(part, ''))

function walk(part: z.ZodType, path: string): Row[] {
  const facts = figureFacts.get(part)
  const inner = stepsOf(part).flatMap(([step, inner]) => walk(inner, path ? `${path}.${step}` : step))
  if (!facts) return inner
  const empty = part instanceof z.ZodNullable ? 'null' : part instanceof z.ZodOptional ? 'absent' : false
  return [{ ...facts, path, empty }, ...inner]
}

function walkTogether(part: z.ZodType, path: string): TogetherRow[] {
  const facts = togetherFacts.get(part) ?? figureFacts.get(part)
  const inner = stepsOf(part)
    .filter(([step]) => step !== '*')
    .flatMap(([step, inner]) => walkTogether(inner, path ? `${path}.${step}` : step))
  if (!facts?.source) return inner
  const { of } = facts as Together
  const rows = rowsOf(part).filter(row => !of || of.includes(row.path))
  return [{ ...facts, path, rows }, ...inner]
}

/** The part of a schema at a path, 'finishes.*.packs'. */
export function partAt(part: z.ZodType, path: string): z.ZodType {
  return path.split('.').reduce((inner, step) => stepsOf(inner).find(([name]) => name === step)![1], part)
}

/** The kinds that an entry of a list may be of, where there are several, each with its schema. */
export function kindsOf(entry: z.ZodType): Map<string, z.ZodObject> {
  if (!(entry instanceof z.ZodDiscriminatedUnion)) return new Map()
  const options = entry.options as z.ZodObject[]
  return new Map(options.map(option => [(option.shape.kind as z.ZodLiteral<string>).value, option]))
}

/** The steps of an entry that are lists of entries of their own. */
export function listsIn(entry: z.ZodType): string[] {
  return stepsOf(entry).flatMap(([step, part]) =>
    part instanceof z.ZodArray && !figureFacts.has(part) ? [step] : [],
  )
}

/** What is right below a part of the schema: its keys, or '*' for the entries of a list. */
export function stepsOf(part: z.ZodType): [step: string, inner: z.ZodType][] {
  if (part instanceof z.ZodObject) return Object.entries(part.shape as Record<string, z.ZodType>)
  if (part instanceof z.ZodArray) return [['*', part.element as z.ZodType]]
  if (part instanceof z.ZodNullable) return stepsOf(part.unwrap() as z.ZodType)
  if (part instanceof z.ZodDiscriminatedUnion) return (part.options as z.ZodType[]).flatMap(stepsOf)
  return []
}

/** A value of one of the two systems of units. */
export function inUnits<Value>(value: PerUnits<Value>, units: 'us' | 'metric'): Value {
  const isPair = typeof value === 'object' && value !== null && 'us' in value && 'metric' in value
  return isPair ? value[units] : (value as Value)
}

/** What is at a dotted path, 'depth.least'; all of it at ''. */
export function valueAt(from: unknown, path: string): unknown {
  const steps = path === '' ? [] : path.split('.')
  return steps.reduce<unknown>((value, step) => (value as Record<string, unknown> | null)?.[step], from)
}
