import { readConfig } from '../../src/config.ts'
import { openMigratedStore } from '../../src/db/migrate.ts'
import { setUpAddress } from '../../src/first-run/first-run.ts'
import { Budget } from '../../src/limits/budget.ts'
import { open, serve } from '../../src/serve.ts'

/** The real service, as the environment says; without bounds on work, to measure its speed, until SIGUSR2. */
const now = Temporal.Now.instant
const config = readConfig()
const opened = await open(await openMigratedStore(config), config, { now, demo: false })
const endless = { most: 1e12, perSecond: 1e12 }
const { load } = opened.deps
const bounded = load.budget
load.budget = new Budget(now, { network: endless, site: endless, all: endless, mostNetworks: 10_000 })
process.on('SIGUSR2', () => {
  load.budget = bounded
})
const service = await serve(opened)
const setUp = await setUpAddress(service.deps)
console.log(JSON.stringify({ address: service.address, setUp: setUp && new URL(setUp).pathname }))
