import { valueAt } from '../../estimate/table/rows.ts'
import type { Typed } from '../../http/posted.ts'
import type { FormField } from './section.ts'

/** Reads fields into what they are of; a value that can't be read is a fault, and stays as it was. */
export function readFields(
  fields: FormField[],
  typed: Typed,
  prefix: string,
  fault: (name: string, message: string) => void,
  into: unknown,
): void {
  for (const { path, entry, ticks } of fields) {
    const name = `${prefix}${path}`
    if (ticks) {
      const isTicked = (code: string) => typed[`${name}.${code}`] === 'yes'
      const kept = ((valueAt(into, path) ?? []) as string[]).filter(isTicked)
      const added = ticks.map(({ value }) => value).filter(code => isTicked(code) && !kept.includes(code))
      put(into, path, [...kept, ...added])
      continue
    }
    const read = entry.read((typed[name] ?? '').trim())
    if ('fault' in read) fault(name, read.fault)
    else put(into, path, read.value)
  }
}

/** The values of some fields of one thing, by field name. */
export function fieldValues(fields: FormField[], from: unknown, prefix: string): Record<string, string> {
  return Object.fromEntries(
    fields.flatMap(({ path, entry, ticks }) => {
      const value = valueAt(from, path)
      return ticks
        ? ((value ?? []) as string[]).map(code => [`${prefix}${path}.${code}`, 'yes'])
        : [[`${prefix}${path}`, entry.write(value)]]
    }),
  )
}

function put(into: unknown, path: string, value: unknown): void {
  const steps = path.split('.')
  let node = into as Record<string, unknown>
  for (const step of steps.slice(0, -1)) {
    node[step] ??= {}
    node = node[step] as Record<string, unknown>
  }
  const last = steps.at(-1)!
  if (value === undefined) delete node[last]
  else node[last] = value
}
