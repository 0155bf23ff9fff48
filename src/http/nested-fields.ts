/** A field, or a group or a list of them, as posted. */
export type Field = string | Group | Field[]

/** Fields by their names. */
export type Group = { [name: string]: Field }

const MOST_ENTRIES = 100
const DEEPEST = 8

/**
 * Turns the flat fields of a posted form into what they name: `beds.0.sizes.length` becomes
 * `{ beds: [{ sizes: { length } }] }`. Of a field sent twice the last one counts, but for names that end in
 * `[]`, which gather a list. Gaps in numbered lists close up, so that a bed taken out leaves no hole. Names of
 * more than 8 steps are left out.
 */
export function nestFields(flat: unknown): Group {
  const root = emptyNode()
  for (const [name, value] of Object.entries((flat ?? {}) as Record<string, unknown>)) {
    const values = [value].flat().filter(entry => typeof entry === 'string')
    if (values.length === 0 || name.split('.', DEEPEST + 1).length > DEEPEST) continue
    if (name.endsWith('[]')) place(root, name.slice(0, -2).split('.'), values.slice(0, MOST_ENTRIES))
    else place(root, name.split('.'), values.at(-1)!)
  }
  return closeGaps(root) as Group
}

/** What was typed into a field; '' where it is none. */
export function textOf(field: unknown): string {
  return typeof field === 'string' ? field : ''
}

/** The fields of a group; none where it is something else. */
export function groupOf(field: Field | undefined): Group {
  return typeof field === 'object' && !Array.isArray(field) ? field : {}
}

type Node = { [name: string]: Node | string | string[] }

function emptyNode(): Node {
  return Object.create(null)
}

function place(root: Node, path: string[], value: string | string[]) {
  let node = root
  for (const step of path.slice(0, -1)) {
    const next = node[step]
    if (typeof next === 'object' && !Array.isArray(next)) node = next
    else {
      const made = emptyNode()
      node[step] = made
      node = made
    }
  }
  node[path.at(-1)!] = value
}

function closeGaps(node: Node | string | string[]): Field {
  if (typeof node === 'string' || Array.isArray(node)) return node
  const keys = Object.keys(node)
  if (keys.length > 0 && keys.every(key => /^\d{1,3}$/.test(key))) {
    return keys
      .sort((a, b) => Number(a) - Number(b))
      .slice(0, MOST_ENTRIES)
      .map(key => closeGaps(node[key]!))
  }
  return Object.fromEntries(keys.map(key => [key, closeGaps(node[key]!)]))
}
