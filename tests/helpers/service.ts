import { rm } from 'node:fs/promises'
import { readConfig } from '../../src/config.ts'
import { openMigratedStore } from '../../src/db/migrate.ts'
import { setUpAddress } from '../../src/first-run/first-run.ts'
import { open, serve } from '../../src/serve.ts'
import { folderWithStore } from './made-store.ts'
import { freePort } from './process.ts'
import { setUpAt } from './set-up.ts'

/** The real service with its business set up, on an embedded store in a folder of its own, for a real browser. */
export async function startService(): Promise<{ address: string; log: string[]; close(): Promise<void> }> {
  const folder = await folderWithStore()
  const config = readConfig({ PORT: await freePort(), DATA_DIR: folder, LOG_LEVEL: 'info' })
  const log: string[] = []
  const stream = { write: (line: string) => void log.push(line) } as unknown as NodeJS.WritableStream
  const service = await serve(
    await open(await openMigratedStore(config), config, { now: () => Temporal.Now.instant(), demo: false }),
    stream,
  )
  const { status } = await setUpAt(config.publicUrl, new URL((await setUpAddress(service.deps))!).pathname)
  if (status !== 303) throw new Error(`Set-up answered ${status}`)
  return {
    address: config.publicUrl,
    /** Every line of its log. */
    log,
    close: async () => {
      await service.close()
      await rm(folder, { recursive: true, force: true })
    },
  }
}
