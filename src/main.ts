import { readConfig } from './config.ts'
import { openMigratedStore } from './db/migrate.ts'
import { explain } from './explain.ts'

try {
  const config = readConfig()
  const store = await openMigratedStore(config, async store => {
    const { backUpBefore } = await import('./operations/nightly-backup.ts')
    const file = await backUpBefore('update', { store, config, at: Temporal.Now.instant() })
    console.log(`This version changes the store. As it was, it is saved in ${file}`)
  })
  // Loaded only now: it takes a second, which whoever finds the folder in use is not to wait.
  const { open, serve } = await import('./serve.ts')
  const { setUpAddress } = await import('./first-run/first-run.ts')
  const { tellErasedAgain } = await import('./privacy/erase-again.ts')
  const opened = await open(store, config, { now: Temporal.Now.instant, demo: false })
  for (const line of tellErasedAgain(opened.erasedAgain)) console.log(line)
  const service = await serve(opened)
  console.log(`Bedwright is at ${service.address}`)
  const setUp = await setUpAddress(service.deps)
  if (setUp) console.log(`It has no owner yet. Set it up, once, at ${setUp}`)
} catch (error) {
  console.error(explain(error, 'The start'))
  process.exit(1)
}
