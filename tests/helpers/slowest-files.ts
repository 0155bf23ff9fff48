import { relative } from 'node:path'
import type { Reporter, TestModule } from 'vitest/node'
import { SEED } from './seed.ts'

const SHOWN = 5

/** Tells in the end which files took longest, without what they waited for their turn, and the seed of the order. */
export default class SlowestFiles implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const slowest = modules
      .map(module => ({ module, seconds: secondsOf(module) }))
      .sort((a, b) => b.seconds - a.seconds)
      .slice(0, SHOWN)
    const lines = slowest.map(({ module, seconds }) => {
      const file = relative(module.project.config.root, module.moduleId)
      return `  ${seconds.toFixed(1).padStart(6)} s  ${file} (${module.project.name})`
    })
    console.log(['The slowest files:', ...lines].join('\n'))
    if (SEED !== undefined) console.log(`The order of files and tests: TEST_SEED=${SEED}`)
  }
}

function secondsOf(module: TestModule): number {
  const { collectDuration, duration } = module.diagnostic()
  return (collectDuration + duration) / 1000
}
