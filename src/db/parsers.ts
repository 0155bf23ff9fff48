/**
 * The one table of how values cross between PostgreSQL and the program, used by both stores, whose
 * libraries disagree when left alone (dates at local or UTC midnight, null in arrays, int8, bytea).
 */

type Parse = (text: string) => unknown

const ONE: [oid: number, array: number, parse: Parse][] = [
  [16, 1000, text => text === 't'], // boolean
  [17, 1001, bytes], // bytea
  [20, 1016, safeInteger], // int8
  [21, 1005, Number], // int2
  [23, 1007, Number], // int4
  [26, 1028, Number], // oid
  [700, 1021, Number], // float4
  [701, 1022, Number], // float8
  [114, 199, JSON.parse], // json
  [3802, 3807, JSON.parse], // jsonb
  [1184, 1185, instant], // timestamptz
  [1114, 1115, text => text.replace(' ', 'T')], // timestamp
  [1082, 1182, String], // date
  [1083, 1183, String], // time
  [1186, 1187, String], // interval
  [1700, 1231, String], // numeric
  [25, 1009, String], // text
  [1043, 1015, String], // varchar
  [1042, 1014, String], // bpchar
  [19, 1003, String], // name
  [2950, 2951, String], // uuid
]

/**
 * Type number → reader of its text form. int8 becomes a number (throws when it isn't a safe one), numeric, date,
 * time and interval stay text, timestamptz becomes ISO 8601 in UTC with Z, timestamp ISO 8601 without a zone,
 * json and jsonb their value, bytea a Buffer; arrays of these become arrays, with null kept.
 */
export const parsers: Record<number, Parse> = Object.fromEntries(
  ONE.flatMap(([oid, array, parse]): [number, Parse][] => [
    [oid, parse],
    [array, text => readArray(text, parse)],
  ]),
)

/**
 * Gives the text form in which a value is bound, whatever the type of its column; null and undefined give null.
 * Arrays become array literals and plain objects JSON; an array for a json column is bound by `json()`.
 */
export function bind(value: unknown): string | null {
  if (value === null || value === undefined) return null
  if (typeof value === 'string') return value
  if (value instanceof Date) return value.toISOString()
  if (value instanceof Uint8Array) return `\\x${Buffer.from(value).toString('hex')}`
  if (Array.isArray(value)) return `{${value.map(bindElement).join(',')}}`
  return isPlainObject(value) ? JSON.stringify(value) : String(value)
}

function bindElement(value: unknown): string {
  const text = bind(value)
  if (text === null) return 'null'
  return Array.isArray(value) ? text : `"${text.replace(/["\\]/g, '\\$&')}"`
}

function isPlainObject(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return false
  const prototype = Object.getPrototypeOf(value)
  return prototype === Object.prototype || prototype === null
}

function safeInteger(text: string): number {
  const value = Number(text)
  if (!Number.isSafeInteger(value)) throw new RangeError(`${text} is too large to be held as a whole number`)
  return value
}

function instant(text: string): string {
  return text.endsWith('infinity') ? text : Temporal.Instant.from(text).toString()
}

function bytes(text: string): Buffer {
  return Buffer.from(text.slice(2), 'hex')
}

function readArray(text: string, parse: Parse): unknown[] {
  const token = /\{|\}|,|"((?:[^"\\]|\\.)*)"|([^{},"]+)/gsy
  token.lastIndex = text.indexOf('{')
  const open: unknown[][] = [[]]
  for (let found = token.exec(text); found; found = token.exec(text)) {
    const [whole, quoted, bare] = found
    if (whole === '{') open.push([])
    else if (whole === '}') open.at(-2)?.push(open.pop())
    else if (quoted !== undefined) open.at(-1)?.push(parse(quoted.replace(/\\(.)/gs, '$1')))
    else if (bare !== undefined) open.at(-1)?.push(bare === 'NULL' ? null : parse(bare))
  }
  return open[0]?.[0] as unknown[]
}
