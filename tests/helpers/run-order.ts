import { createHash } from 'node:crypto'
import { BaseSequencer, type TestSpecification } from 'vitest/node'

/**
 * In CI, and wherever TEST_SEED is given, files and the tests in them run in an order that the seed decides; else the
 * longest files of the last run come first.
 */
export const SEED = seed()

/**
 * Keeps the files of a project together, in the order of the projects: a worker, with the store that it has, lives
 * only as long as the next file is of its own project.
 */
export class ProjectByProject extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const projects = this.ctx.projects.map(project => project.name)
    const place = ({ project }: TestSpecification) => projects.indexOf(project.name)
    const sorted = SEED === undefined ? await super.sort(files) : shuffled(files, SEED)
    return sorted.sort((a, b) => place(a) - place(b))
  }
}

function shuffled(files: TestSpecification[], seed: number): TestSpecification[] {
  const lot = ({ moduleId }: TestSpecification) =>
    createHash('sha256').update(`${seed} ${moduleId}`).digest('hex')
  return files.toSorted((a, b) => lot(a).localeCompare(lot(b)))
}

// Kept in the environment, as the reporter is given a module of its own.
function seed(): number | undefined {
  if (process.env.CI) process.env.TEST_SEED ||= String(Date.now() % 1_000_000_000)
  const given = process.env.TEST_SEED
  if (!given) return undefined
  if (!/^\d{1,9}$/.test(given)) throw new Error(`TEST_SEED is a number of up to nine digits, not ${given}.`)
  return Number(given)
}
