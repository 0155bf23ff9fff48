import { manyBeds, manyBedsTyped } from '../helpers/many-beds.ts'

/** Beds as another program sends them. */
export function bedsAsJson(count: number, narrower?: boolean): string {
  return JSON.stringify({ beds: manyBeds(count), extras: [], postcode: '', narrower })
}

/** The same as the form posts them. */
export function bedsAsForm(count: number): string {
  return new URLSearchParams({ ...manyBedsTyped(count), measuredBy: 'eye', do: 'range' }).toString()
}

/** A bed with so many sizes, each of which would be written with 301 digits. */
export function hugeNumbers(count: number): string {
  const [bed] = manyBeds(1)
  const beds = [{ ...bed, shape: 'radii', sizes: { radii: Array(count).fill(1e300) } }]
  return JSON.stringify({ beds }).replaceAll('1e+300', '1e300')
}

/** A bed with so many things cut out of it, none of which says anything. */
export function unreadableCutOuts(count: number): string {
  const [bed] = manyBeds(1)
  return JSON.stringify({ beds: [{ ...bed, cutOuts: 'a;'.repeat(count) }] })
}
