import { writeFileSync } from 'node:fs'
import { relative } from 'node:path'
import type { Reporter, TestModule } from 'vitest/node'

/** What one run of the tests came to. */
export interface Report {
  passed: number
  failed: number
  skipped: number
  /** The kinds of runs that the files belong to. */
  projects: string[]
  /** The files that ran, from the folder of the project on. */
  files: string[]
  /** Each test that failed, with the seed that it gives. */
  failures: string[]
}

/** Writes the report of a run into the file that FAULTS_REPORT names. */
export default class Reporting implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const tests = modules.flatMap(module => [...module.children.allTests()])
    const count = (state: string) => tests.filter(test => test.result().state === state).length
    const failed = tests.filter(test => test.result().state === 'failed')
    const broken = modules.filter(module => module.state() === 'failed' && module.errors().length > 0)
    const report: Report = {
      passed: count('passed'),
      failed: failed.length + broken.length,
      skipped: count('skipped'),
      projects: [...new Set(modules.map(({ project }) => project.name))],
      files: modules.map(({ moduleId, project }) => relative(project.config.root, moduleId)),
      failures: [
        ...failed.map(test => {
          const { errors = [] } = test.result()
          return `${test.fullName}${seedIn(errors.map(({ message }) => message).join('\n'))}`
        }),
        ...broken.map(module => module.moduleId),
      ],
    }
    writeFileSync(process.env.FAULTS_REPORT!, JSON.stringify(report))
  }
}

/** As a property or a model tells it, or a test of ours. */
export function seedIn(message: string): string {
  const [found] = /seed: -?\d+(, path: "[\d:]*")?|TEST_SEED=\d+/.exec(message) ?? []
  return found ? ` (${found})` : ''
}
