/** Every path at which a rate table has a figure, a word, a text or a yes, as its schema says; * for each of a list. */
export function pathsOfSchema(node: JsonSchema, path = ''): string[] {
  const within = (step: string, inner: JsonSchema) => pathsOfSchema(inner, path ? `${path}.${step}` : step)
  const choices = node.anyOf ?? node.oneOf
  if (choices) return choices.filter(one => one.type !== 'null').flatMap(one => pathsOfSchema(one, path))
  if (node.properties) return Object.entries(node.properties).flatMap(([step, inner]) => within(step, inner))
  return node.items ? within('*', node.items) : [path]
}

export interface JsonSchema {
  type?: string
  anyOf?: JsonSchema[]
  oneOf?: JsonSchema[]
  properties?: Record<string, JsonSchema>
  items?: JsonSchema
}

export type Leaf = { path: string[]; value: unknown }

/** Every figure and text of a value, with its path. */
export function leavesOf(value: unknown, path: string[] = []): Leaf[] {
  if (typeof value !== 'object' || value === null) return [{ path, value }]
  return Object.entries(value).flatMap(([step, inner]) => leavesOf(inner, [...path, step]))
}

/** A copy with another value at a path. */
export function changedAt<T>(whole: T, { path, value }: Leaf): T {
  const [step, ...rest] = path
  if (step === undefined) return value as T
  const copy = (Array.isArray(whole) ? [...whole] : { ...whole }) as Record<string, unknown>
  copy[step] = changedAt(copy[step], { path: rest, value })
  return copy as T
}

/** Other values of the same sort. */
export function othersThan(value: unknown): unknown[] {
  if (typeof value === 'boolean') return [!value]
  const isFigure = /^\d+(\.\d+)?$/.test(String(value))
  return isFigure ? ['7.125', '4'].filter(other => Number(other) !== Number(value)) : ['other', 'x9']
}
