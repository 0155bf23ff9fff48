import { setTimeout } from 'node:timers/promises'

/** Asks again and again until the answer is truthy, and gives it; throws when `within` milliseconds have passed. */
export async function until<T>(
  ask: () => T | Promise<T>,
  { within = 5_000, what = 'the condition' } = {},
): Promise<Exclude<T, false | null | undefined>> {
  const end = performance.now() + within
  while (true) {
    const answer = await ask()
    if (answer) return answer as Exclude<T, false | null | undefined>
    if (performance.now() > end) throw new Error(`Waited ${within} ms in vain for ${what}.`)
    await setTimeout(20)
  }
}
