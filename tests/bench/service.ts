import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { SET_UP_FIELDS } from '../helpers/people.ts'
import { formBody } from '../helpers/set-up.ts'
import { type Program, start } from './programs.ts'

/** A service in a process of its own, set up, behind a proxy that isn't there; `cookie` is the owner's. */
export interface Service {
  address: string
  cookie: string
  /** From now on as it is for real: until then no work is refused. */
  bound(): void
  stop(): Promise<void>
}

export async function startService(
  databaseUrl: string | null,
  more: Record<string, string> = {},
): Promise<Service> {
  const folder = await mkdtemp(join(tmpdir(), 'bedwright-bench-'))
  const env = {
    PORT: '0',
    DATA_DIR: folder,
    LOG_LEVEL: 'error',
    TRUSTED_PROXY: '127.0.0.1',
    ...(databaseUrl && { DATABASE_URL: databaseUrl }),
    ...more,
  }
  type Says = { address: string; setUp: string }
  const program: Program<Says> = await start<Says>('service-program.ts', {}, env)
  const { address, setUp } = program.says
  const answer = await fetch(address + setUp, {
    method: 'POST',
    headers: { origin: address },
    body: formBody(SET_UP_FIELDS),
    redirect: 'manual',
  })
  if (answer.status !== 303) throw new Error(`Set-up answered ${answer.status}`)
  const cookie = answer.headers
    .getSetCookie()
    .map(one => one.split(';')[0]!)
    .join('; ')
  const stop = async () => {
    await program.stop()
    await rm(folder, { recursive: true, force: true })
  }
  return { address, cookie, bound: () => program.signal('SIGUSR2'), stop }
}
