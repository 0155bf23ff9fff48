export interface Element {
  name: string
  attributes: Record<string, string>
  text: string
  inside: string[]
}

/**
 * Reads a drawing as strictly as an XML parser would: one root, nested tags, quoted attributes, no bare & or <.
 * @throws with the place of the first thing that isn't well-formed
 */
export function readSvg(source: string): Element[] {
  const elements: Element[] = []
  const open: Element[] = []
  let rest = source
  while (rest) {
    const text = /^[^<]+/.exec(rest)?.[0]
    const tag = /^<(\/?)([a-zA-Z]+)((?:\s+[a-zA-Z-]+="[^"<]*")*)\s*(\/?)>/.exec(rest)
    if (text !== undefined) {
      if (open.length === 0) throw new Error(`Text outside the root: ${text}`)
      open.at(-1)!.text += unescaped(text)
    } else if (!tag) {
      throw new Error(`Not a tag: ${rest.slice(0, 80)}`)
    } else if (tag[1]) {
      if (open.pop()?.name !== tag[2]) throw new Error(`Closed what isn't open: ${tag[2]}`)
    } else {
      if (open.length === 0 && elements.length > 0) throw new Error(`A second root: ${tag[2]}`)
      const element = {
        name: tag[2]!,
        attributes: readAttributes(tag[3]!),
        text: '',
        inside: open.map(each => each.name),
      }
      elements.push(element)
      if (!tag[4]) open.push(element)
    }
    rest = rest.slice((text ?? tag![0]).length)
  }
  if (open.length > 0) throw new Error(`Never closed: ${open.at(-1)!.name}`)
  return elements
}

function readAttributes(source: string): Record<string, string> {
  const pairs = [...source.matchAll(/([a-zA-Z-]+)="([^"]*)"/g)]
  const names = pairs.map(pair => pair[1]!)
  if (new Set(names).size !== names.length) throw new Error(`Doubled attribute: ${source}`)
  return Object.fromEntries(pairs.map(([, name, value]) => [name!, unescaped(value!)]))
}

function unescaped(text: string): string {
  if (/&(?!#\d+;)/.test(text)) throw new Error(`A bare ampersand: ${text}`)
  return text.replace(/&#(\d+);/g, (_, code: string) => String.fromCharCode(Number(code)))
}

export interface Box {
  label: string
  left: number
  right: number
  top: number
  bottom: number
}

/** Where the figures stand, with the advance widths of DejaVu Sans: the widest font that a system is likely to bring. */
export function labelBoxes(elements: Element[]): Box[] {
  return elements
    .filter(element => element.name === 'text')
    .map(({ attributes, text }) => {
      const size = Number(attributes['font-size'])
      const width = [...text].reduce((sum, character) => sum + advanceOf(character), 0) * size
      const [x, y] = [Number(attributes.x), Number(attributes.y)]
      const left = { start: x, middle: x - width / 2, end: x - width }[
        attributes['text-anchor'] as 'start' | 'middle' | 'end'
      ]
      return { label: text, left, right: left + width, top: y - size * 0.76, bottom: y + size * 0.24 }
    })
}

function advanceOf(character: string): number {
  if (character === ' ' || character === '.') return 0.318
  if (/[:;il]/.test(character)) return 0.337
  return character === '×' ? 0.838 : 0.636
}

export function overlapping(boxes: Box[]): string[] {
  return boxes.flatMap((a, index) =>
    boxes
      .slice(index + 1)
      .filter(b => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
      .map(b => `${a.label} over ${b.label}`),
  )
}

/** Ids that are doubled, references to ids that aren't there, and style attributes, which the pages' policy forbids. */
export function faultsOf(elements: Element[]): string[] {
  const ids = elements.flatMap(element => element.attributes.id ?? [])
  const references = elements.flatMap(({ attributes }) => [
    ...(attributes['aria-labelledby'] ?? '').split(' '),
    ...Object.values(attributes).flatMap(value => /^url\(#(.*)\)$/.exec(value)?.[1] ?? []),
  ])
  return [
    ...ids.filter((id, index) => ids.indexOf(id) !== index).map(id => `doubled id ${id}`),
    ...references.filter(id => id && !ids.includes(id)).map(id => `nothing has the id ${id}`),
    ...elements
      .filter(element => 'style' in element.attributes || element.name === 'style')
      .map(() => 'inline style'),
  ]
}
