import { hasOwner } from '../account/queries.ts'
import { readDemoConfig } from '../config.ts'
import { openMigratedStore } from '../db/migrate.ts'
import { explain } from '../explain.ts'
import { open, serve } from '../serve.ts'
import { HELPER, OFFICE, OWNER } from './business.ts'
import { type DemoClock, fillDemo } from './fill.ts'
import { clearDemo, whileUnfinished } from './store.ts'

const clock: DemoClock = { at: null }

try {
  const config = readDemoConfig()
  clearDemo(config.dataDir, process.argv.includes('--fresh'))
  console.log(`Opening the store in ${config.dataDir}/ (the first time takes some seconds) ...`)
  const opened = await open(await openMigratedStore(config), config, {
    now: () => clock.at ?? Temporal.Now.instant(),
    demo: true,
  })
  if (!(await hasOwner(opened.deps.db))) {
    console.log('Filling it with an invented contractor and invented requests ...')
    await whileUnfinished(config.dataDir, () => fillDemo(opened.deps, clock, tellProgress))
  }
  const { deps } = await serve(opened)
  const home = deps.config.publicUrl
  console.log(`
All of this is invented: the business, the people and the prices.

  For homeowners  ${home}/
  For the staff   ${home}/sign-in
    the owner     ${OWNER.email}  with  ${OWNER.password}
    the office    ${OFFICE.email}  with  ${OFFICE.password}
    a helper      ${HELPER.email}  with  ${HELPER.password}

What you do in it is kept. To start over: npm run demo -- --fresh
To stop it: Ctrl+C`)
} catch (error) {
  console.error(explain(error, 'The start'))
  process.exit(1)
}

function tellProgress(told: number, of: number): void {
  if (told % 5 === 0 || told === of) console.log(`  ${told} of ${of} requests`)
}
