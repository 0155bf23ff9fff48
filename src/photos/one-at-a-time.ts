/** So many pictures wait already that one more would wait for too long. */
export class TooManyPictures extends Error {}

/** Each waits for some hundred milliseconds, and is held in memory meanwhile. */
const MOST_WAITING = 16

let last: Promise<unknown> = Promise.resolve()
let waiting = 0

/**
 * Does this when everything before it is done: several pictures at once would each be unpacked whole.
 * @throws {TooManyPictures} when too many wait already
 */
export async function oneAtATime<Done>(work: () => Promise<Done>): Promise<Done> {
  if (waiting >= MOST_WAITING) throw new TooManyPictures()
  waiting += 1
  const done = last.then(work)
  last = done.catch(() => undefined)
  try {
    return await done
  } finally {
    waiting -= 1
  }
}
