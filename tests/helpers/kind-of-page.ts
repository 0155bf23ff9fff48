import { createHash } from 'node:crypto'

const VOID = /^(?:area|base|br|col|embed|hr|img|input|link|meta|source|track|wbr)$/i
const TAG = /<(\/?)([a-z][\w-]*)((?:"[^"]*"|'[^']*'|[^'">])*)>([^<]*)/gi

// What people typed, figures and where a link goes: these say nothing of how a page is built, as long as they are there.
const FREE =
  /\b(value|href|action|content|src|alt|title|datetime|d|[xy][12]?|c[xy]|r[xy]?|width|height|points|transform|viewBox|data-[\w-]+)="([^"]*)"/g
const FIELDS = /<(?:input|select|textarea)\b((?:"[^"]*"|'[^']*'|[^'">])*)>/g
const LANDMARKS = /<((?:nav|aside|section|form|header|footer|main)\b(?:[^>]* aria-label[^>]*)?)/g
const REFERENCES = /\b(?:for|list|form|aria-\w*(?:by|controls|owns))="([^"]*)"/g

/** What of a page a check of its markup looks at; all of it as texts that can be compared. */
export interface Skeleton {
  /** Every element within its ancestors, with its attributes as they are written, and every pair of siblings. */
  parts: string[]
  /** What only the page as a whole shows. */
  whole: string
}

/**
 * The skeleton of a page. In it are every element within its ancestors and between its siblings, with its attributes as
 * they are written; whether it stands there once or more often; the order of headings; and whatever of texts and values
 * a rule looks at, such as an id that is there twice. Not in it are the texts, what was typed, other figures, and how
 * long a list is. The address and the status of an answer aren't either, as the check doesn't know of them: one more
 * fold, fault, field or language makes another skeleton by itself.
 */
export function skeletonOf(page: string): Skeleton {
  const found = new Map<string, number>()
  const neighbours = new Set<string>()
  const inside: { name: string; hides: string; last: string }[] = [{ name: '', hides: '', last: '' }]
  for (const [, end, name = '', attributes = '', text = ''] of page.matchAll(TAG)) {
    const path = inside.map(({ name, hides }) => name + hides).join(' ')
    const parent = inside.at(-1)!
    const part = `${path} ${end}${name}${built(attributes)} ${textFlags(text)}`
    found.set(part, (found.get(part) ?? 0) + 1)
    neighbours.add(`${path} ${parent.last}+${end}${name}`)
    if (end) {
      if (parent.name === name) inside.pop()
      continue
    }
    parent.last = name
    const hides = /\b(?:aria-hidden|hidden|inert)\b/.test(attributes) ? ' hidden' : ''
    if (!VOID.test(name) && !attributes.endsWith('/')) inside.push({ name, hides, last: '' })
  }
  const parts = [...found].map(([part, times]) => `${part}${times > 1 ? ' again' : ''}`)
  return { parts: [...parts, ...neighbours].sort(), whole: JSON.stringify(wholePage(page)) }
}

/** A hash that two pages share when a check of their markup must come to the same. */
export function kindOf(skeleton: Skeleton): string {
  return createHash('sha256').update(JSON.stringify(skeleton)).digest('hex')
}

/**
 * The parts of pages that were found sound. A page all of whose parts are among them, and whose whole has been seen,
 * is one that was taken apart and put together anew: a check finds nothing in it.
 */
export class SoundParts {
  #known = new Set<string>()

  /** Whether there is anything in a page that was in none before it. */
  isNew({ parts, whole }: Skeleton): boolean {
    return !this.#known.has(whole) || parts.some(part => !this.#known.has(part))
  }

  /** Notes a page that was found sound. */
  add({ parts, whole }: Skeleton): void {
    this.#known.add(whole)
    for (const part of parts) this.#known.add(part)
  }
}

function built(attributes: string): string {
  const kept = attributes.replace(
    FREE,
    (_all, name, value) => `${name}="${value.trim() ? textFlags(value) : value}"`,
  )
  return kept.replace(/\d+/g, '0')
}

/** Nothing, blank or something; and in it an ampersand or a quote as it stands, or what could be a telephone number. */
function textFlags(text: string): string {
  if (!text.trim()) return text.includes('\n') ? 'line' : text
  const raw = /&(?!#?\w+;)|["'>]/.test(text.replace(/[’“”]/g, ''))
  return `text${raw ? ' raw' : ''}${/\d{3}[)\s-]/.test(text) ? ' number' : ''}`
}

/** What only the page as a whole shows. */
function wholePage(page: string) {
  const all = (pattern: RegExp) => [...page.matchAll(pattern)].map(([, value]) => value!)
  const ids = all(/\bid="([^"]*)"/g)
  const names = all(/\bname="([^"]*)"/g)
  const references = all(REFERENCES).flatMap(value => value.split(/\s+/))
  return {
    begins: page.slice(0, page.indexOf('<html')),
    headings: all(/<h(\d)/g)
      .join('')
      .replace(/(\d+?)\1+/g, '$1'),
    entities: [...new Set(all(/&(\w+);/g))].sort(),
    comments: page.includes('<!--'),
    // A < that begins no tag ends the text before it, and what follows belongs to nothing.
    stray: page.replace(TAG, '').includes('<', 1),
    longTitle: (all(/<title>([^<]*)/g)[0] ?? '').length > 70,
    blankEnds: /[ \t]\r?$/m.test(page),
    idsTwice: new Set(ids).size < ids.length,
    namesTwice: [...new Set(twice(names).map(name => name.replace(/\d+/g, '0')))].sort(),
    landmarks: twice(all(LANDMARKS)).sort(),
    unlabelled: [
      ...new Set(
        all(FIELDS)
          .filter(field => !isLabelled(field, references))
          .map(built),
      ),
    ].sort(),
    unsent: all(/<form\b([\s\S]*?)<\/form>/g).some(form => !/type="?(?:submit|image)/.test(form)),
    leadsNowhere: references.some(name => !ids.includes(name)),
    labelsSaidTwice: all(/\baria-label="([^"]*)"/g).some(label => page.includes(`>${label}<`)),
  }
}

function isLabelled(field: string, references: string[]): boolean {
  const id = /\bid="([^"]*)"/.exec(field)?.[1]
  return id !== undefined && references.includes(id)
}

function twice(values: string[]): string[] {
  const seen = new Set<string>()
  return values.filter(value => seen.has(value) || !seen.add(value))
}
