/** One thing that a drawing is made of, in the order of drawing. */
export type Shape =
  | {
      kind: 'path'
      path: string
      classes: string[]
      fill: string | null
      evenOdd: boolean
      /** Where and how large the group is drawn that it stands in. */
      within: Group | null
    }
  | { kind: 'text'; text: string; x: number; y: number; size: number; anchor: string }

interface Group {
  x: number
  y: number
  scale: number
}

/** What is repeated to fill a shape; a unit of it is `scale` units of the shape. */
export interface MarkupPattern {
  path: string
  classes: string
  width: number
  height: number
  scale: number
}

export interface Markup {
  width: number
  height: number
  title: string
  shapes: Shape[]
  patterns: Map<string, MarkupPattern>
}

/**
 * Reads a drawing as src/drawing writes it: groups moved and scaled, paths, boxes, texts in one line, and patterns of
 * one path. It is our own markup, never somebody else's.
 */
export function readMarkup(markup: string): Markup {
  const read: Markup = { width: 0, height: 0, title: '', shapes: [], patterns: new Map() }
  let within: Group | null = null
  let pattern: Attributes | undefined
  let text: Attributes | undefined
  for (const [, close, name = '', inside = '', said] of markup.matchAll(/<(\/?)([a-z]+)([^>]*)>|([^<]+)/gi)) {
    if (said !== undefined) {
      if (text) read.shapes.push(textOf(text, unescaped(said)))
      else read.title ||= unescaped(said)
      continue
    }
    const at = attributesOf(inside)
    if (name === 'svg' && !close) [read.width, read.height] = [Number(at.width), Number(at.height)]
    if (name === 'g') within = close ? null : groupOf(at.transform ?? '')
    if (name === 'pattern') pattern = close ? undefined : at
    if (name === 'text') text = close ? undefined : at
    if (pattern && name === 'path') read.patterns.set(pattern.id!, patternOf(pattern, at))
    else if (name === 'path') read.shapes.push(shapeOf(at, at.d!, within))
    else if (name === 'rect') read.shapes.push(shapeOf(at, boxPath(at), within))
  }
  return read
}

type Attributes = Record<string, string>

function attributesOf(inside: string): Attributes {
  return Object.fromEntries(
    Array.from(inside.matchAll(/([\w-]+)="([^"]*)"/g), ([, name, value]) => [name!, unescaped(value!)]),
  )
}

function groupOf(transform: string): Group {
  const [x = 0, y = 0, scale = 1] = (transform.match(/-?[\d.]+(?:e-?\d+)?/g) ?? []).map(Number)
  return { x, y, scale }
}

function patternOf(pattern: Attributes, path: Attributes): MarkupPattern {
  const scale = Number(/scale\(([^)]+)\)/.exec(pattern.patternTransform ?? '')?.[1] ?? 1)
  const [width, height] = [Number(pattern.width), Number(pattern.height)]
  return { path: path.d!, classes: path.class ?? '', width, height, scale }
}

function shapeOf(at: Attributes, path: string, within: Group | null): Shape {
  const classes = (at.class ?? '').split(' ')
  return {
    kind: 'path',
    path,
    classes,
    fill: at.fill ?? null,
    evenOdd: at['fill-rule'] === 'evenodd',
    within,
  }
}

function boxPath({ x = '0', y = '0', width, height }: Attributes): string {
  return `M${x} ${y}h${width}v${height}h${-Number(width)}z`
}

function textOf(at: Attributes, text: string): Shape {
  return {
    kind: 'text',
    text,
    x: Number(at.x),
    y: Number(at.y),
    size: Number(at['font-size']),
    anchor: at['text-anchor'] ?? 'start',
  }
}

function unescaped(text: string): string {
  return text.replace(/&#(\d+);/g, (_whole, code: string) => String.fromCodePoint(Number(code)))
}
