const LONGEST = 40

const AROUND = /^(?:[$€£¥]|[a-z]{3}(?=[\s\d]))|(?:[$€£¥]|[a-z]{3}|h|hours?)$/gi

/**
 * Reads a figure as people write one: "1,250.50", "$85", "1 250,50", "0.75 hours". Gives a plain decimal such as
 * "1250.5" with no more than `places` decimals, or null when it is none, below zero or above 9,999,999.
 */
export function readFigure(typed: string, places: number): string | null {
  const trimmed = typed.trim()
  if (trimmed.length > LONGEST) return null
  const bare = trimmed.replace(AROUND, '').replace(/[\s'’]/g, '')
  if (!/^[.,]*\d[\d.,]*$/.test(bare)) return null
  const plain = plainDecimal(bare)
  const parts = plain && /^(\d{1,7})(?:\.(\d+))?$/.exec(plain)
  if (!parts) return null
  const decimals = (parts[2] ?? '').replace(/0+$/, '')
  if (decimals.length > places) return null
  const whole = parts[1]!.replace(/^0+(?=\d)/, '')
  return decimals ? `${whole}.${decimals}` : whole
}

// The last of two different marks divides the decimals; a comma alone does so unless three digits follow it.
function plainDecimal(bare: string): string | null {
  const withLeadingZero = bare.replace(/^(?=[.,])/, '0')
  const [grouping, mark] = marksOf(withLeadingZero)
  const [whole, ...rest] = mark ? withLeadingZero.split(mark) : [withLeadingZero]
  if (rest.length > 1) return null
  const groups = grouping ? whole!.split(grouping) : [whole!]
  if (
    groups.length > 1 &&
    (!/^\d{1,3}$/.test(groups[0]!) || groups.slice(1).some(group => group.length !== 3))
  )
    return null
  return [groups.join(''), ...rest.filter(Boolean)].join('.')
}

function marksOf(text: string): [grouping: string | null, mark: string | null] {
  const [dot, comma] = [text.lastIndexOf('.'), text.lastIndexOf(',')]
  if (dot >= 0 && comma >= 0) return dot > comma ? [',', '.'] : ['.', ',']
  if (comma < 0) return [null, dot < 0 ? null : '.']
  return /,\d{3}$/.test(text) ? [',', null] : [null, ',']
}
