import { readConfig } from './config.ts'
import { openMigratedStore } from './db/migrate.ts'
import { explain } from './explain.ts'

try {
  const config = readConfig()
  const store = await openMigratedStore(config)
  // Loaded only now: it takes a second, which whoever finds the folder in use is not to wait.
  const { open, serve } = await import('./serve.ts')
  const { setUpAddress } = await import('./first-run/first-run.ts')
  const service = await serve(await open(store, config, { now: Temporal.Now.instant, demo: false }))
  console.log(`Bedwright is at ${service.address}`)
  const setUp = await setUpAddress(service.deps)
  if (setUp) console.log(`It has no owner yet. Set it up, once, at ${setUp}`)
} catch (error) {
  console.error(explain(error, 'The start'))
  process.exit(1)
}
