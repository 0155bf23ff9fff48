import { readFigure } from '../../http/read-figure.ts'
import { Decimal } from '../../lib/decimal.ts'

/** What was typed into one field: the value that it stands for, or what is wrong. */
export type Entered = { value: unknown } | { fault: string }

/** How one value of the table stands in a field of a form. */
export interface Entry {
  write(value: unknown): string
  read(typed: string): Entered
  /** A field to pick from, or one with several lines. */
  options?: { value: string; label: string }[]
  multiline?: boolean
  tick?: boolean
  optional?: boolean
  figure?: boolean
  /** Whether it is a share shown in percent. */
  percent?: boolean
}

const PLACES = 9
const PLAIN = /^\d{1,9}(\.\d{1,9})?$/

function readPlain(typed: string): string | null {
  return PLAIN.test(typed) ? typed : readFigure(typed, PLACES)
}

function unreadable(typed: string): Entered {
  return { fault: `“${typed.slice(0, 40)}” can’t be read as a figure such as 85 or 1,250.50.` }
}

function asText(value: unknown): string {
  return value === null || value === undefined ? '' : String(value)
}

function required(entry: Entry, what: string): Entry {
  return { ...entry, read: typed => (typed === '' ? { fault: `Give ${what}.` } : entry.read(typed)) }
}

/** The same where there may be none: null then. */
export function orNone(entry: Entry): Entry {
  const read = (typed: string) => (typed === '' ? { value: null } : entry.read(typed))
  return { ...entry, read, optional: true }
}

const plainFigure: Entry = {
  write: asText,
  read: typed => {
    const value = readPlain(typed)
    return value === null ? unreadable(typed) : { value }
  },
  figure: true,
}

const plainPercent: Entry = {
  write: value => (asText(value) === '' ? '' : new Decimal(asText(value)).times(100).toFixed()),
  read: typed => {
    const value = readPlain(typed.replace(/\s*%$/, ''))
    return value === null ? unreadable(typed) : { value: new Decimal(value).div(100).toFixed() }
  },
  figure: true,
  percent: true,
}

const plainText: Entry = { write: asText, read: typed => ({ value: typed }) }

export const figure = required(plainFigure, 'a figure')
/** A share of one, shown and typed in percent: 8.25 is 0.0825. */
export const percent = required(plainPercent, 'a share in percent')
export const text = required(plainText, 'a text')
export const colour: Entry = {
  ...text,
  read: typed => ({ value: /^[0-9a-f]{6}$/i.test(typed) ? `#${typed}` : typed }),
}

/** A text that may be empty; '' where there is none. */
export const anyText: Entry = { ...plainText, optional: true }

/** A text that may be left out of the table altogether. */
export const textOrAbsent: Entry = {
  ...plainText,
  read: typed => ({ value: typed === '' ? undefined : typed }),
  optional: true,
}

export const tick: Entry = {
  write: value => (value ? 'yes' : ''),
  read: typed => ({ value: typed === 'yes' }),
  tick: true,
}

/** One of a few words; '' stands for none where it is among them. */
export function choice(...options: [value: string, label: string][]): Entry {
  return {
    write: asText,
    read: typed =>
      options.some(([value]) => value === typed)
        ? { value: typed === '' ? null : typed }
        : { fault: 'Pick one of these.' },
    options: options.map(([value, label]) => ({ value, label })),
  }
}

/** Several texts, parted by commas, semicolons or lines. */
export const texts: Entry = {
  write: value => ((value ?? []) as string[]).join(', '),
  read: typed => ({ value: partsOf(typed, /[,;\n\r]+/) }),
  multiline: true,
  optional: true,
}

/** Figures from small to large, as 5; 10. */
export const figures: Entry = {
  write: value => (value as string[]).join('; '),
  read: typed => {
    const parts = partsOf(typed, /;|\n|,\s+/)
    const read = parts.map(readPlain)
    return read.includes(null) ? unreadable(parts[read.indexOf(null)]!) : { value: read }
  },
  optional: true,
}

/** Prices by how many are bought: 0: 4.20; 40: 3.60. A figure alone is a price whatever the number. */
export const prices: Entry = {
  write: value =>
    ((value ?? []) as { from: string; each: string }[])
      .map(({ from, each }) => `${from}: ${each}`)
      .join('; '),
  read: typed => {
    const steps = partsOf(typed, /[;\n]/).map(part => (part.includes(':') ? part : `0: ${part}`).split(':'))
    const read = steps.map(([from, each, ...more]) => ({
      from: readPlain(from!.trim()),
      each: more.length > 0 ? null : readPlain(each!.trim()),
    }))
    const bad = read.findIndex(({ from, each }) => from === null || each === null)
    if (read.length === 0) return { fault: 'Give its price.' }
    if (bad >= 0)
      return { fault: `“${steps[bad]!.join(':').slice(0, 40)}” can’t be read as a price such as 40: 3.60.` }
    return { value: read }
  },
}

function partsOf(typed: string, separator: RegExp): string[] {
  return typed
    .split(separator)
    .map(part => part.trim())
    .filter(Boolean)
}
