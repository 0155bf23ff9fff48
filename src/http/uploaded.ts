/** What a form with a file in it sent, by its fields' names; of a field sent twice the last one. */
export class Uploaded {
  /** The files that were chosen; a field left empty has none. */
  readonly files: Record<string, File> = Object.create(null)
  readonly fields: Record<string, string> = Object.create(null)
  /** Why the end of the form is missing: it was too much, or there was no room for all of it just then. */
  cut: 'too much' | 'no room' | null = null
}

/** The fields of what was posted, by name, of a form with files in it too. */
export function fieldsIn(body: unknown): Record<string, unknown> {
  return body instanceof Uploaded ? body.fields : ((body ?? {}) as Record<string, unknown>)
}
