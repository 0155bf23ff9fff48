import type { Language } from '../language/language.ts'

/** Everything that stands on a paper, in words of its language; what is empty is left out. */
export interface Paper {
  language: Language
  /** What programs show as the name of the document. */
  title: string
  made: Temporal.Instant
  size: 'LETTER' | 'A4'
  /** Who it is from: the name, below it how to reach them, beside it the logo as JPEG. */
  from: { name: string; lines: string[]; logo: Buffer | null }
  heading: string
  /** For whom, for where, which and when, a line each. */
  about: string[]
  parts: PaperPart[]
  /** At the foot of every page, beside its number. */
  foot: string
  /** Says which page it is: ('1', '3') to 'Page 1 of 3'. */
  pageInWords(page: string, pages: string): string
}

/** One part under its heading; a figure stands large before the lines. */
export type PaperPart = { heading: string } & (
  | { kind: 'text'; lines: string[]; figure?: string; language?: Language }
  | { kind: 'amounts'; lines: AmountLine[]; total: { label: string; amount: string }; note: string | null }
  | { kind: 'facts'; facts: Fact[] }
  | { kind: 'beds'; beds: PaperBed[] }
)

/** A question or a name, and what is said of it; in its own language where that isn't the paper's. */
export interface Fact {
  what: string
  said: string
  language?: Language
}

/** What is paid for, what stands small below it, and the amount in words. */
export interface AmountLine {
  label: string
  note: string | null
  amount: string
  /** Whether it heads the lines after it. */
  heads?: boolean
}

/** A bed, or whatever else is drawn: its words, and a drawing as markup of src/drawing. */
export interface PaperBed {
  /** What stands over it and those after it. */
  over?: string
  title: string
  lines: string[]
  drawing: string | null
}
