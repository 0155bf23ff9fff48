/** Whether the database refused because a unique index or key already holds the value; both stores. */
export function isUniqueViolation(error: unknown, constraint?: string): boolean {
  return isViolation(error, '23505', constraint)
}

/** Whether the database refused because a check constraint doesn't hold; both stores. */
export function isCheckViolation(error: unknown, constraint?: string): boolean {
  return isViolation(error, '23514', constraint)
}

/** Whether the database refused because an exclusion constraint found a row in conflict; both stores. */
export function isExclusionViolation(error: unknown, constraint?: string): boolean {
  return isViolation(error, '23P01', constraint)
}

/** Whether the database refused because a row points at one that isn't there, or is still pointed at; both stores. */
export function isForeignKeyViolation(error: unknown, constraint?: string): boolean {
  return isViolation(error, '23503', constraint)
}

function isViolation(error: unknown, code: string, constraint: string | undefined): boolean {
  if (!(error instanceof Error) || !('code' in error) || error.code !== code) return false
  return constraint === undefined || constraintOf(error) === constraint
}

// `postgres` calls it constraint_name, PGlite constraint.
function constraintOf(error: Error): unknown {
  return 'constraint_name' in error
    ? error.constraint_name
    : 'constraint' in error
      ? error.constraint
      : undefined
}
