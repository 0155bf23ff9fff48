/**
 * Put before the program by `node --import`, it ends the process as the system would in need: right after the n-th statement that
 * a request makes whose header `die-after` says n, or after the commit of one that says `commit`. Its clock stands still at what
 * `CLOCK` says, or goes on from there where `CLOCK_RUNS`. The program itself knows nothing of it.
 */
import { AsyncLocalStorage } from 'node:async_hooks'
import { subscribe } from 'node:diagnostics_channel'
import type { IncomingMessage } from 'node:http'
import { OneConnection } from '../../src/db/postgres-pool.ts'
import { PreparedStatements } from '../../src/db/prepared-statements.ts'

const requests = new AsyncLocalStorage<{ dieAfter: string | undefined; statements: number }>()

subscribe('http.server.request.start', message => {
  const { headers } = (message as { request: IncomingMessage }).request
  requests.enterWith({ dieAfter: headers['die-after']?.toString(), statements: 0 })
})

for (const { prototype } of [PreparedStatements, OneConnection]) {
  const run = prototype.run as (text: string, values?: readonly unknown[]) => Promise<unknown>
  Object.assign(prototype, {
    run: async function (text: string, values?: readonly unknown[]) {
      const asked = requests.getStore()
      if (asked?.dieAfter === '0') die()
      const answer = await run.call(this, text, values)
      if (asked && [String(++asked.statements), text].includes(asked.dieAfter ?? '')) die()
      return answer
    },
  })
}

const { CLOCK, CLOCK_RUNS } = process.env
if (CLOCK) {
  const begun = Temporal.Instant.from(CLOCK)
  const passed = () => Math.round(CLOCK_RUNS ? performance.now() : 0)
  Temporal.Now.instant = () => begun.add({ milliseconds: passed() })
}

function die(): void {
  process.kill(process.pid, 'SIGKILL')
}
