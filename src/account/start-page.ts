import type { Role } from '../db/schema.ts'

/** The page on which a person's day begins. */
export function startPage(role: Role): string {
  return role === 'helper' ? '/days' : '/queue'
}
