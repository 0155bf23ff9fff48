import { t } from '../language/catalogue.ts'
import { dayInWords } from '../language/dates-in-words.ts'
import type { Language } from '../language/language.ts'
import { readDay } from './form.ts'

/** The morning or the afternoon of a day. */
export type Part = 'am' | 'pm'

export const PARTS: readonly Part[] = ['am', 'pm']

/** When work begins: on a day, or on its morning or afternoon. */
export interface Start {
  day: string
  part?: Part | null
}

/** A start as forms, addresses and the history have it: '2026-03-10' or '2026-03-10 am'. */
export function startText({ day, part }: Start): string {
  return part ? `${day} ${part}` : day
}

/** Of such a text. */
export function startOf(text: string): Start {
  const part = PARTS.find(one => text.endsWith(` ${one}`))
  return part ? { day: text.slice(0, -3), part } : { day: text }
}

/** Reads such a text as somebody sent it; undefined where it is none. */
export function readStart(value: unknown): string | undefined {
  if (typeof value !== 'string') return undefined
  const { day, part } = startOf(value)
  const read = readDay(day)
  return read && startText({ day: read, part: part ?? null })
}

/** 'Tuesday, March 10' or 'Tuesday, March 10, in the morning'. */
export function startInWords({ day, part }: Start, language: Language, withYear = false): string {
  const words = dayInWords(day, language, withYear)
  return part ? t(language, `halves.${part}`, { day: words }) : words
}
