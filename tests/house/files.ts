import { globSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

const ROOT = join(import.meta.dirname, '../..')

export interface SourceFile {
  path: string
  text: string
}

/** The files that match, by their path in the repository, with their text. */
export function filesOf(...patterns: string[]): SourceFile[] {
  const paths = globSync(patterns, { cwd: ROOT }).sort()
  return paths.map(path => ({ path, text: readFileSync(join(ROOT, path), 'utf8') }))
}
