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
