/**
 * In CI, and wherever TEST_SEED is given, files and the tests in them run in an order that the seed decides; else the
 * longest files of the last run come first.
 */
export const SEED = seed()

// Kept in the environment, as the reporter is given a module of its own.
function seed(): number | undefined {
  if (process.env.CI) process.env.TEST_SEED ||= String(Date.now() % 1_000_000_000)
  const given = process.env.TEST_SEED
  if (!given) return undefined
  if (!/^\d{1,9}$/.test(given)) throw new Error(`TEST_SEED is a number of up to nine digits, not ${given}.`)
  return Number(given)
}
