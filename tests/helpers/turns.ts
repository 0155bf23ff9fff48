import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { TestProject } from 'vitest/node'

/** Makes the folder whose lock is the turn of a project that runs one file at a time. */
export default async function makeTurns(project: TestProject): Promise<() => Promise<void>> {
  const folder = await mkdtemp(join(tmpdir(), 'bedwright-turns-'))
  project.provide('turns', folder)
  return () => rm(folder, { recursive: true, force: true })
}
