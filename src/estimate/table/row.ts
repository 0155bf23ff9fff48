import { z } from 'zod'

/** One value in both systems of units, or one for each. */
export type PerUnits<Value> = Value | { us: Value; metric: Value }

/** Where a start value comes from; only a named source can be looked up. */
export interface Source {
  words: string
  named: boolean
}

export const INVENTED: Source = { words: 'Invented, to start with', named: false }
export const COMMON: Source = { words: 'Common practice, no source', named: false }
export const named = (words: string): Source => ({ words, named: true })

export type Kind =
  | 'figure'
  | 'share'
  | 'choice'
  | 'yes'
  | 'text'
  | 'note'
  | 'slug'
  | 'group'
  | 'colour'
  | 'photo'
  | 'pinned'
  | 'figures'
  | 'prices'
  | 'slugs'
  | 'layers'
  | 'codes'
  | 'postcodes'

/** How a start value is asked about until the owner has looked at it. */
export interface AskedAbout {
  /** Without one it is never asked about. */
  source?: Source
  /** What it is known by for good, where that isn't its path. */
  key?: string
  /** Whether it is among the handful that the owner gives at the set-up. */
  handful?: boolean
  /** How it reads, where that isn't the figure with its unit: 'give or take {} {depth}'; and where all of it is zero. */
  words?: string
  wordsOfNone?: string
  /** Whether it says nothing of a finish, an extra or a table as it is. */
  idle?(whole: unknown): boolean
}

/** All there is to know of one figure of the rate table besides its path and what it may be. */
export interface Facts extends AskedAbout {
  kind: Kind
  /** What it is called on pages and in the guide to the files. */
  label: string
  /** A sentence more, beside its field and in the guide. */
  meaning?: string
  /** What only whoever has the form before him needs to know, and what only whoever has the files. */
  onForms?: string
  inFiles?: string
  /** Such as '{money} per {bulk}'; `unitOf` fills units in here, in the label and in what it means. */
  unit?: string
  /** Its column in the file of its list; else its row in `file`, or its column there where `row` is its row. */
  name: string
  /** What it was called in the files before, which is still read. */
  was?: string
  file?: string
  row?: string
  /** Which small form of the draft asks for it, where no list says so, and under which heading. */
  section?: string
  heading?: string
  /** The words that it may be, each as pages say it. */
  options?: Record<string, string>
  /** What a new table has, and a new entry of a list; where it doesn't say, the same as an old one. */
  start?: PerUnits<unknown>
  /** What a table has that was stored before there was the figure: it changes no price. */
  before?: PerUnits<unknown>
  /** An invented price, for whoever wants the form of the set-up filled in. */
  invented?: PerUnits<string>
  /** The owner's alone: neither homeowners nor helpers are ever told it. */
  secret?: boolean
}

/** Figures that are looked at as one. */
export interface Together extends AskedAbout {
  label: string
  /** Which of its steps, where not all. */
  of?: string[]
}

/** The facts of every figure, kept beside its place in the schema. */
export const figureFacts = z.registry<Facts>()
/** Those of the parts that are looked at as one. */
export const togetherFacts = z.registry<Together>()

type Rest = Omit<Facts, 'kind' | 'name' | 'label' | 'options'>
/** What a figure may be: any of zero or more where nothing is said. */
type Bounds = { above?: 0; from?: number; to?: number }

/** Declares what one part of a table's schema is. */
export function declared<Schema extends z.ZodType>(schema: Schema, facts: Facts): Schema {
  figureFacts.add(schema, facts)
  return schema
}

/** Declares that the figures of a part of a table's schema are looked at as one. */
export function together<Schema extends z.ZodType>(schema: Schema, facts: Together): Schema {
  togetherFacts.add(schema, facts)
  return schema
}

/** A plain decimal of zero or more, as text, within all the bounds that there are. */
export function decimal({ above, from, to }: Bounds = {}): z.ZodString {
  const plain = z.string().regex(/^\d{1,9}(\.\d{1,9})?$/, 'a figure such as 12 or 12.50')
  const larger = above === undefined ? plain : plain.refine(text => Number(text) > above, 'more than zero')
  if (from === undefined && to === undefined) return larger
  const bounds =
    to === undefined ? `at least ${from}` : from === undefined ? `at most ${to}` : `from ${from} to ${to}`
  const [least, most] = [from ?? 0, to ?? Number.POSITIVE_INFINITY]
  return larger.refine(text => Number(text) >= least && Number(text) <= most, bounds)
}

export function figure(name: string, label: string, rest: Rest & Bounds = {}): z.ZodString {
  return declared(decimal(rest), { ...rest, kind: 'figure', name, label })
}

/** A figure that may be unknown or wanting: null then. */
export function figureOrNone(name: string, label: string, rest: Rest & Bounds = {}) {
  return declared(decimal(rest).nullable(), { before: null, ...rest, kind: 'figure', name, label })
}

/** A part of one, typed and shown in percent; up to all of it where nothing else is said. */
export function share(name: string, label: string, rest: Rest & Bounds = {}): z.ZodString {
  const bounds = { from: rest.from ?? 0, to: rest.to ?? 1 }
  return declared(decimal(bounds), { unit: 'share', ...rest, kind: 'share', name, label })
}

export function shareOrNone(name: string, label: string, rest: Rest = {}) {
  const schema = decimal({ from: 0, to: 1 }).nullable()
  return declared(schema, { unit: 'share', before: null, ...rest, kind: 'share', name, label })
}

/** A lower and an upper figure, in that order, with what each is called in the files; looked at as one. */
export function span(
  [lower, upper]: [string, string],
  label: string,
  rest: Omit<Rest, 'was'> & Bounds & { were?: [string, string] } = {},
) {
  const { source, key, words, handful, were: [lowerWas, upperWas] = [], ...each } = rest
  const { meaning: _, ...second } = each
  const pair = z
    .object({
      lower: figure(lower, `${label}, at least`, { ...each, was: lowerWas }),
      upper: figure(upper, `${label}, at most`, { ...second, was: upperWas }),
    })
    .refine(upward, UPWARD)
  return source ? together(pair, { label, source, key, words, handful }) : pair
}

export const UPWARD = { path: ['upper'], message: 'not less than the lower rate' }

/** Whether a lower figure isn't above the upper one. */
export function upward({ lower, upper }: { lower: string; upper: string }): boolean {
  return Number(lower) <= Number(upper)
}

/** One of a few words, each with what pages say for it. */
export function choice<Word extends string>(
  name: string,
  label: string,
  options: Record<Word, string>,
  rest: Rest = {},
) {
  const words = Object.keys(options) as [Word, ...Word[]]
  return declared(z.enum(words), { ...rest, kind: 'choice', name, label, options })
}

export function yes(name: string, label: string, rest: Rest = {}): z.ZodBoolean {
  return declared(z.boolean(), { ...rest, kind: 'yes', name, label })
}

/** A text that people read, of 60 characters at most. */
export function text(name: string, label: string, rest: Rest = {}): z.ZodString {
  return declared(z.string().trim().min(1).max(60), { ...rest, kind: 'text', name, label })
}

/** The same where there may be none: null then. */
export function textOrNone(name: string, label: string, rest: Rest = {}) {
  const schema = z.string().trim().min(1).max(60).nullable()
  return declared(schema, { before: null, ...rest, kind: 'text', name, label })
}

/** What a thing is called, in each language of the pages. */
export function nameOf(rest: Rest = {}) {
  return z.object({
    en: text('name', 'Name in English', rest),
    es: text('name in Spanish', 'Name in Spanish', rest),
  })
}

export const plainSlug = () =>
  z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'lowercase letters, digits, and hyphens')

/** What a thing is known by, for good. */
export function slug(): z.ZodString {
  const meaning = 'Lowercase letters, digits, and hyphens. A different slug is a different thing.'
  return declared(plainSlug(), { kind: 'slug', name: 'slug', label: 'Its own short name', meaning })
}

/** ZIPs or postcodes, at least one. */
export function postcodes() {
  const meaning = '787* covers all that start with 787.'
  const schema = z.array(z.string().trim().min(1)).min(1)
  return declared(schema, { kind: 'postcodes', name: 'postcode', label: 'ZIP codes or postcodes', meaning })
}
