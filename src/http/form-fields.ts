import { nestFields } from './nested-fields.ts'
import { readFigure } from './read-figure.ts'

/** Faults by field name, in words. */
export type Errors = Record<string, string>

/** A posted form's fields by their flat names, gathering faults as they are read. */
export class FormFields {
  readonly errors: Errors = {}
  readonly typed: Record<string, string>

  constructor(body: unknown) {
    this.typed = typedFields(body)
  }

  text(name: string): string {
    return (this.typed[name] ?? '').trim()
  }

  /** A figure that must be there; `what` says in the fault what is asked for. */
  figure(name: string, places: number, what: string): string | null {
    if (this.text(name) !== '') return this.optionalFigure(name, places)
    this.errors[name] = `Give ${what}.`
    return null
  }

  optionalFigure(name: string, places: number): string | null {
    const typed = this.text(name)
    if (typed === '') return null
    const figure = readFigure(typed, places)
    if (figure === null)
      this.errors[name] =
        `“${typed.slice(0, 40)}” can’t be read as a figure such as 85 or 1,250.50 (at most ${places} decimals).`
    return figure
  }

  wholeNumber(name: string, least: number, greatest: number, what: string): number | null {
    const figure = this.figure(name, 0, what)
    if (figure === null) return null
    const number = Number(figure)
    if (number >= least && number <= greatest) return number
    this.errors[name] = `Give ${what} from ${least} to ${greatest}.`
    return null
  }
}

/** What was typed, by flat field name, to be shown again; lists (names in []) are left out. */
export function typedFields(body: unknown): Record<string, string> {
  const nested = Object.entries((body ?? {}) as Record<string, unknown>)
  return Object.fromEntries(
    nested
      .filter(([name]) => !name.endsWith('[]'))
      .map(([name, value]) => [name, [value].flat().at(-1)])
      .filter((entry): entry is [string, string] => typeof entry[1] === 'string'),
  )
}

/** The texts of a list of ticks named `name[]`. */
export function tickedValues(body: unknown, name: string): string[] {
  const ticked = nestFields(body)[name]
  return Array.isArray(ticked) ? ticked.filter(entry => typeof entry === 'string') : []
}
