/** The form of the lines that is written, and the only one that is read. */
export const FORMAT = 1

/** The first line of a backup: where it comes from. */
export interface Head {
  bedwright: 'backup'
  format: number
  /** The release that made it. */
  version: string
  /** When what it holds was so, ISO 8601 in UTC. */
  at: string
  /** The migrations that the store had had, in order. */
  migrations: string[]
}

/** The last line: what there has to be before it. */
export interface End {
  /** How many rows, by table. */
  rows: Record<string, number>
  /** The last number given, by sequence; null where none was given yet. */
  sequences: Record<string, number | null>
  /** Of the bytes of every line before it, hex. */
  sha256: string
}

/**
 * What a line says. In the file a head is an object, rows are objects as PostgreSQL writes them, and whatever else
 * there is is a list that begins with its kind.
 */
export type Line =
  | { kind: 'head'; head: Head }
  | { kind: 'table'; name: string }
  | { kind: 'row'; json: string }
  | { kind: 'end'; end: End }

/** The file can't be used; the message is one plain line for the person who named it. */
export class BackupUnusable extends Error {
  override name = 'BackupUnusable'
}
