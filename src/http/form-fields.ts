import { readDate } from '../lib/dates.ts'
import { oneLine, severalLines } from '../lib/typed-text.ts'
import { closeGaps, type Errors, type FormReading, type Posted, postedIn, type Typed } from './posted.ts'
import { readAmount, readFigure } from './read-figure.ts'

/** What is said of a text: `missing` where it has to be there, `tooLong` beyond `most` characters. */
export interface TextRules {
  most: number
  tooLong: string
  missing?: string
}

/** What is said of a figure: `missing` where it has to be there, `outside` beyond its limits. */
export interface FigureRules {
  /** How many decimals it may have. */
  places: number
  missing?: string
  unreadable?: string
  above?: number
  least?: number
  most?: number
  outside?: string
}

/**
 * The fields of a posted form, each read by what it is. What is wrong is gathered beside its field, the first fault of
 * a field being the one that stands; every sentence is handed in, in the language of whoever reads it. What could not
 * be read is null, a text ''.
 */
export class FormFields {
  readonly #posted: Posted
  readonly #prefix: string

  /** From a request's body; or the part of other fields whose names begin with `prefix`, as 'visit.'. */
  constructor(from: unknown, prefix = '') {
    this.#posted = from instanceof FormFields ? from.#posted : postedIn(from)
    this.#prefix = prefix
  }

  /** What was typed into the whole form, to be shown again: without lists of ticks, and without secrets. */
  get typed(): Typed {
    const { typed, secrets } = this.#posted
    return Object.fromEntries(Object.entries(typed).filter(([name]) => !secrets.has(name)))
  }

  /** What is wrong with the whole form so far. */
  get errors(): Errors {
    return this.#posted.errors
  }

  /** What came of the whole form. */
  reading<Values>(values: Values): FormReading<Values> {
    const { typed, errors } = this
    return Object.keys(errors).length > 0 ? { ok: false, typed, errors } : { ok: true, values }
  }

  fault(name: string, sentence: string): void {
    this.errors[this.#prefix + name] ??= sentence
  }

  /** The fields `name.…`, by what follows. */
  group(name: string): FormFields {
    return new FormFields(this, `${this.#prefix}${name}.`)
  }

  /**
   * The rows `name.0.…`, `name.1.…` that were sent, in their order. Gaps between them close up, in what was typed too:
   * the page shows so many rows again, from the first on.
   */
  rows(name: string): FormFields[] {
    const start = `${this.#prefix}${name}.`
    const found = new Set<string>()
    for (const before of this.#posted.parts.keys()) {
      const number = before.startsWith(start) && /^\d{1,3}(?=\.)/.exec(before.slice(start.length))
      if (number) found.add(number[0])
    }
    const sent = [...found].sort((a, b) => Number(a) - Number(b))
    if (sent.some((number, index) => number !== String(index))) closeGaps(this.#posted, start, sent)
    return sent.map((_number, index) => this.group(`${name}.${index}`))
  }

  /** The names of the fields that were sent, as far as they have no part of their own: of a group what follows its name. */
  names(): readonly string[] {
    return this.#posted.parts.get(this.#prefix) ?? []
  }

  /** Whether a field was sent at all. */
  has(name: string): boolean {
    return this.#posted.typed[this.#prefix + name] !== undefined
  }

  /** What was typed, without the spaces around it. */
  text(name: string): string {
    return this.#raw(name).trim()
  }

  /** Text of one line. */
  line(name: string, rules: TextRules): string {
    return this.#within(name, oneLine(this.#raw(name)), rules)
  }

  /** Text of several lines. */
  lines(name: string, rules: TextRules): string {
    return this.#within(name, severalLines(this.#raw(name)), rules)
  }

  /** A password: as it was typed, spaces and all, and never shown again. */
  secret(name: string): string {
    this.#posted.secrets.add(this.#prefix + name)
    return this.#raw(name)
  }

  /** A plain decimal of none below zero, as '1250.5'; null where nothing was typed. */
  figure(name: string, rules: FigureRules): string | null {
    const typed = this.text(name)
    if (typed === '') return this.#refuse(name, rules.missing)
    const figure = readFigure(typed, rules.places)
    if (figure === null) return this.#refuse(name, rules.unreadable ?? unreadable(typed, rules.places))
    const { above = -1, least = 0, most = Number.POSITIVE_INFINITY } = rules
    const isWithin = Number(figure) > above && Number(figure) >= least && Number(figure) <= most
    return isWithin ? figure : this.#refuse(name, rules.outside)
  }

  wholeNumber(name: string, rules: Omit<FigureRules, 'places'>): number | null {
    const figure = this.figure(name, { ...rules, places: 0 })
    return figure === null ? null : Number(figure)
  }

  /** An amount of money that has to be there, in cents, and may be below zero: '-25.50'. */
  amount(name: string, sentence: string): string | null {
    return readAmount(this.text(name)) ?? this.#refuse(name, sentence)
  }

  /** A date that has to be there, 'YYYY-MM-DD'. */
  day(name: string, sentence: string): string | null {
    return readDate(this.text(name)) ?? this.#refuse(name, sentence)
  }

  choice<Option extends string>(name: string, options: readonly Option[], sentence: string): Option | null {
    const typed = this.text(name)
    return options.find(option => option === typed) ?? this.#refuse(name, sentence)
  }

  tick(name: string): boolean {
    return this.text(name) === 'yes'
  }

  /** The values ticked of a list whose fields are named `name[]`. */
  ticks(name: string): string[] {
    return this.#posted.ticks.get(this.#prefix + name) ?? []
  }

  /** A whole number that the page put into the form itself, as a version; 0 where it is none. */
  carried(name: string): number {
    return Number(/^\d{1,9}$/.exec(this.text(name))?.[0] ?? 0)
  }

  /** An uploaded file; null where none was chosen. */
  file(name: string): File | null {
    return this.#posted.files[this.#prefix + name] ?? null
  }

  /** Shows this again in place of what was typed. */
  retype(name: string, value: string): void {
    this.#posted.typed[this.#prefix + name] = value
  }

  #raw(name: string): string {
    return this.#posted.typed[this.#prefix + name] ?? ''
  }

  #within(name: string, text: string, { most, tooLong, missing }: TextRules): string {
    if (text === '' && missing !== undefined) this.fault(name, missing)
    if (text.length > most) this.fault(name, tooLong)
    return text
  }

  #refuse(name: string, sentence: string | undefined): null {
    if (sentence !== undefined) this.fault(name, sentence)
    return null
  }
}

function unreadable(typed: string, places: number): string {
  return `“${typed.slice(0, 40)}” can’t be read as a figure such as 85 or 1,250.50 (at most ${places} decimals).`
}
