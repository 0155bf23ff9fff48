import { readConfig } from './config.ts'
import { explain } from './explain.ts'
import { setUpAddress } from './first-run/first-run.ts'
import { open, serve } from './serve.ts'

try {
  const service = await serve(await open(readConfig(), { now: Temporal.Now.instant, demo: false }))
  console.log(`Bedwright is at ${service.address}`)
  const setUp = await setUpAddress(service.deps)
  if (setUp) console.log(`It has no owner yet. Set it up, once, at ${setUp}`)
} catch (error) {
  console.error(explain(error, 'The start'))
  process.exit(1)
}
