import { manyBeds, manyBedsTyped } from '../helpers/many-beds.ts'

/** Beds as another program sends them. */
export function bedsAsJson(count: number, narrower?: boolean): string {
  return JSON.stringify({ beds: manyBeds(count), extras: [], postcode: '', narrower })
}

/** The same as the form posts them. */
export function bedsAsForm(count: number): string {
  return new URLSearchParams({ ...manyBedsTyped(count), measuredBy: 'eye', do: 'range' }).toString()
}
