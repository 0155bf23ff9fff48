import { z } from 'zod'
import { readDay } from '../days/form.ts'
import { nestFields } from '../http/nested-fields.ts'
import { type Key, keyed, keyIn } from '../language/catalogue.ts'
import { REASONS, type WhyNot } from './not-this-time.ts'

const MOST_WORDS = 1000

/** Stands for a day where the homeowner would rather be rung. */
export const NO_DAY = 'none'

const line = z
  .string()
  .default('')
  .transform(text => text.replace(/\p{Cc}+/gu, ' ').trim())
const text = z
  .string()
  .default('')
  .transform(words => words.replace(/[^\P{Cc}\n\t]+/gu, '').trim())

const acceptance = z.object({
  revision: z.coerce.number().int().positive().catch(0),
  typedName: line.pipe(z.string().min(1, keyed('booking.name-missing')).max(200, keyed('booking.name-long'))),
  read: z.literal('yes', { error: keyed('booking.tick-missing') }),
  day: z.string().default('').refine(isChoice, keyed('booking.day-missing')),
})

function isChoice(day: string): boolean {
  return day === NO_DAY || readDay(day) !== undefined
}

export type AcceptForm = z.infer<typeof acceptance>
export type Typed = Record<string, string>

/** A form that was read: its values, or what was typed with the catalogue's key of a message for each faulty field. */
export type Reading<Values> = { ok: true; values: Values } | { ok: false; errors: Record<string, Key> }

/** What a form holds as it was typed, to be shown again. */
export function typedIn(body: unknown): Typed {
  const entries = Object.entries(nestFields(body)).filter(([, value]) => typeof value === 'string')
  return Object.fromEntries(entries) as Typed
}

/** The form that accepts: `revision` is the one that was read (0 when it can't be told), `day` may be NO_DAY. */
export function readAcceptForm(typed: Typed): Reading<AcceptForm> {
  return read(acceptance, typed)
}

const whyNot = z.object({
  reason: z.enum(REASONS, { error: keyed('booking.reason-missing') }),
  words: text.pipe(z.string().max(MOST_WORDS, keyed('booking.words-long'))),
})

export function readWhyNot(typed: Typed): Reading<WhyNot> {
  return read(whyNot, typed)
}

/** What the messages of a fault say in figures. */
export const FAULT_PARAMS = { most: String(MOST_WORDS) }

function read<Values>(schema: z.ZodType<Values>, typed: Typed): Reading<Values> {
  const result = schema.safeParse(typed)
  if (result.success) return { ok: true, values: result.data }
  const errors: Record<string, Key> = {}
  for (const issue of result.error.issues) errors[String(issue.path[0])] ??= keyIn(issue.message)
  return { ok: false, errors }
}
