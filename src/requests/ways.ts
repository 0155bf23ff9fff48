import type { SentAs } from '../db/schema/places.ts'

/** The ways to ask for a price without measuring, as they stand in addresses, and how each is stored. */
export const WAYS = { photos: 'photos', 'last-year': 'last year', look: 'look' } as const satisfies Record<
  string,
  SentAs
>
export type Way = keyof typeof WAYS

export interface WayChoice {
  way: Way | 'beds'
  path: string
}

/** The way that a field or an address names; undefined where it names none. */
export function wayOf(named: unknown): Way | undefined {
  return typeof named === 'string' && Object.hasOwn(WAYS, named) ? (named as Way) : undefined
}

/** The ways that a form offers to begin with, measuring first; photos alone where the business takes some. */
export function waysOffered(photosEach: number): WayChoice[] {
  const ways = (Object.keys(WAYS) as Way[]).filter(way => way !== 'photos' || photosEach > 0)
  return [{ way: 'beds', path: '/' }, ...ways.map(way => ({ way, path: `/request?as=${way}` }))]
}
