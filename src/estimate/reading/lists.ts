import type { Decimal } from '../../lib/decimal.ts'
import type { Sizes } from '../shapes/all-shapes.ts'

/** The entry of a list of sizes: 'offsets.3' is the fourth. */
export function entryOf(list: string, index: number): string {
  return `${list}.${index}`
}

/** A list of sizes in its order. */
export function listOf(sizes: Sizes, list: string): Decimal[] {
  const found: Decimal[] = []
  for (let size = sizes[entryOf(list, 0)]; size; size = sizes[entryOf(list, found.length)]) found.push(size)
  return found
}

/**
 * Parts what was typed as a list: '0 2.5 3.5', '10; 12 1/2; 9', '10, 14, 18' or '10,14,18'. A comma between digits is a
 * decimal comma where something else parts the list.
 */
export function partList(typed: string): string[] {
  const text = typed.trim()
  if (text === '') return []
  if (text.includes(';')) return trimmed(text.split(';'))
  if (/,\s/.test(text)) return trimmed(text.split(/,\s+/))
  if (/\s/.test(text)) return trimmed(bound(text).split(/\s+/)).map(part => part.replaceAll('_', ' '))
  return trimmed(text.split(','))
}

function trimmed(parts: string[]): string[] {
  return parts.map(part => part.trim()).filter(part => part !== '')
}

// A fraction belongs to the whole number before it, a unit to its number, and inches to the feet before them.
function bound(text: string): string {
  return text
    .replace(/(\d)\s+(\d+\/\d+)/g, '$1_$2')
    .replace(/(\d)\s+([a-z])/gi, '$1_$2')
    .replace(/((?:ft|feet|foot|pies?)\.?|')\s+(?=[\d./_]+(?:in|pulg|"))/gi, '$1_')
}
