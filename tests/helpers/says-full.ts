/**
 * Loaded into a process before anything else: while the file named by FULL_WHILE is there, every disk says that it is
 * full, and what is written to files as streams is refused.
 */
import fs from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'

const isSaid = () => fs.existsSync(process.env.FULL_WHILE!)
const refusal = () => Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC' })
const { statfsSync, write } = fs as unknown as Record<'statfsSync' | 'write', (...given: unknown[]) => Stats>
const { statfs } = fs.promises
/** Those of the program's own output stay open. */
const FILES = 3

interface Stats {
  bavail: number | bigint
}

const told = <Told extends Stats>(stats: Told): Told =>
  isSaid() ? Object.assign(stats, { bavail: 0 }) : stats
Object.assign(fs, {
  statfsSync: (...given: unknown[]) => told(statfsSync(...given)),
  write: (...given: unknown[]) => {
    const done = given.at(-1) as (error: Error) => void
    return isSaid() && (given[0] as number) >= FILES ? process.nextTick(done, refusal()) : write(...given)
  },
})
Object.assign(fs.promises, { statfs: async (folder: string) => told(await statfs(folder)) })
syncBuiltinESMExports()
