import { method1 } from './1/method.ts'
import { method2 } from './2/method.ts'
import { method3 } from './3/method.ts'
import type { Method } from './method.ts'

/** Every method there was, the newest last. */
const methods: readonly Method[] = [method1, method2, method3]

/** The method of every range that is worked out for the first time. */
export const newestMethod: Method = methods.at(-1)!

/**
 * The method that a stored ballpark names.
 * @throws {Error} when a newer version of the program made it
 */
export function methodOf(number: number): Method {
  const method = methods.find(one => one.number === number)
  if (!method) throw new Error(`a ballpark of method ${number}: this version knows ${newestMethod.number}`)
  return method
}
