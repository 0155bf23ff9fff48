/** Freezes a value made of plain objects and lists, and all that is in it; gives the same value. */
export function deepFreeze<T>(value: T): T {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return value
  Object.freeze(value)
  for (const part of Object.values(value)) deepFreeze(part)
  return value
}
