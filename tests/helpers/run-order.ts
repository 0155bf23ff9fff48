import { createHash } from 'node:crypto'
import { BaseSequencer, type TestSpecification } from 'vitest/node'
import { SEED } from './seed.ts'

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
