import type { Typed } from '../../http/posted.ts'

/** A form's fields by the names that they have now, where it was opened before tables said `labor`. */
export function byNamesNow(typed: Typed): Typed {
  return Object.fromEntries(
    Object.entries(typed).map(([name, text]) => [name.replace(/^labour(?=\.)/, 'labor'), text]),
  )
}
