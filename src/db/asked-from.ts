/**
 * Does what a database is asked to. An error made while its answer was read tells nothing of who asked: it gets the
 * stack of the caller.
 */
export async function askedFrom<T>(ask: () => Promise<T>): Promise<T> {
  try {
    return await ask()
  } catch (error) {
    if (error instanceof Error) Error.captureStackTrace(error)
    throw error
  }
}
