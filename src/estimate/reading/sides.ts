import { LONGEST_TYPED, scan } from './typed.ts'

type Side = 'length' | 'width'

const by = /(?<=[a-z\d'" ])(?:x| by | por )(?=[ \d.,~])/
const long = /\b(?:long|largo|longitud|in length)$/
const wide = /\b(?:wide|ancho|in width)$/
const deep = /\b(?:deep|fondo)$/

/**
 * A length's or a width's text with the sides in the order in which the boxes stand: '3 ft wide x 40 ft' turned round.
 * Null where its words say that it belongs in the other box, or call both sides the same. `name` is the size's.
 */
export function inOrder(typed: string, name: string): string | null {
  const box = sideOf(name)
  if (!box || typed.length > LONGEST_TYPED) return typed
  const { text } = scan(typed)
  const parts = text.split(by).map(part => part.trim())
  if (parts.length > 2) return typed
  const [first, second] = saidOf(parts)
  if (!second) return first && first !== box && !deep.test(text) ? null : typed
  if (first === second) return null
  return first === 'length' ? typed : [...parts].reverse().join(' x ')
}

function sideOf(name: string): Side | null {
  if (/length$/i.test(name)) return 'length'
  return /width$/i.test(name) ? 'width' : null
}

// Deep is across the length, unless the other side is called wide: then wide is along the wall.
function saidOf(parts: string[]): [Side | null, Side | null] {
  const isDeep = parts.some(part => deep.test(part))
  const isWide = parts.some(part => wide.test(part))
  const said = parts.map((part): Side | null => {
    if (long.test(part)) return 'length'
    if (deep.test(part)) return 'width'
    if (wide.test(part)) return isDeep && isWide ? 'length' : 'width'
    return null
  })
  if (parts.length === 1) return [said[0]!, null]
  const [first, second] = said as [Side | null, Side | null]
  const other = (side: Side | null): Side => (side === 'width' ? 'length' : 'width')
  return [first ?? (second ? other(second) : 'length'), second ?? other(first)]
}
