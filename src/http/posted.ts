import { Uploaded } from './uploaded.ts'

/** What was typed, by field name, to be shown again. */
export type Typed = Record<string, string>

/** What is wrong, by field name, in the reader's language; '' is of the whole form. */
export type Errors = Record<string, string>

/** A form that was read: its values; or what was typed, and what is wrong with it. */
export type FormReading<Values> = { ok: true; values: Values } | { ok: false; typed: Typed; errors: Errors }

/** What a form sent, by field name, and what came of it while it is read. */
export interface Posted {
  typed: Typed
  /** The last parts of the names of `typed`, by what stands before them: 'beds.0.sizes.' has 'length'. */
  parts: ReadonlyMap<string, string[]>
  ticks: ReadonlyMap<string, string[]>
  files: Record<string, File>
  errors: Errors
  secrets: Set<string>
}

const MOST_TICKS = 100

/** What a request's body holds, of a form with files too; of a field sent twice the last one counts. */
export function postedIn(body: unknown): Posted {
  const { fields, files } = body instanceof Uploaded ? body : { fields: body, files: {} }
  // Without a prototype, so that a field may have any name.
  const typed: Typed = Object.create(null)
  const ticks = new Map<string, string[]>()
  for (const [name, value] of Object.entries((fields ?? {}) as Record<string, unknown>)) {
    const values = typeof value === 'string' ? [value] : [value].flat().filter(one => typeof one === 'string')
    if (name.endsWith('[]')) ticks.set(name.slice(0, -2), values.slice(0, MOST_TICKS))
    else if (values.length > 0) typed[name] = values.at(-1)!
  }
  return { typed, parts: partsOf(Object.keys(typed)), ticks, files, errors: {}, secrets: new Set() }
}

/** Numbers the rows whose names begin with `start` from 0 on, in this order. */
export function closeGaps(posted: Posted, start: string, numbers: string[]): void {
  const indices = new Map(numbers.map((number, index) => [number, index]))
  const renamed = (name: string) => {
    const number = name.startsWith(start) ? name.slice(start.length).split('.', 1)[0]! : ''
    const index = indices.get(number)
    return index === undefined ? name : `${start}${index}${name.slice(start.length + number.length)}`
  }
  posted.typed = Object.fromEntries(Object.entries(posted.typed).map(([name, text]) => [renamed(name), text]))
  posted.ticks = new Map([...posted.ticks].map(([name, values]) => [renamed(name), values]))
  posted.parts = partsOf(Object.keys(posted.typed))
}

function partsOf(names: string[]): Map<string, string[]> {
  const parts = new Map<string, string[]>()
  for (const name of names) {
    const start = name.lastIndexOf('.') + 1
    const before = name.slice(0, start)
    const known = parts.get(before)
    if (known) known.push(name.slice(start))
    else parts.set(before, [name.slice(start)])
  }
  return parts
}
