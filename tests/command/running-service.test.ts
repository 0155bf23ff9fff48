import { readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { expect, inject, test } from 'vitest'
import { checkBackup } from '../../src/backup/read-backup.ts'
import { SET_UP_FIELDS } from '../helpers/people.ts'
import { type Environment, emptyStore, ownFolder, startBedwright } from '../helpers/process.ts'
import { formBody, setUpAt, setUpLine } from '../helpers/set-up.ts'

const LONG = { timeout: 180_000 }
const FRESH = 'a ladder leans on the greenhouse'

/** Runs a command in a process of its own, and gives its exit code and what it said. */
async function run(environment: Environment, ...words: string[]) {
  const { ended, said, complained } = startBedwright(environment, 'src/command/main.ts', words)
  return { code: await ended(), said, complained }
}

const linkIn = (said: string[]) => said.map(line => /http:\S+/.exec(line)?.[0]).find(Boolean)!
const post = (url: string, fields: Record<string, string>) =>
  fetch(url, {
    method: 'POST',
    headers: { origin: new URL(url).origin },
    body: formBody(fields),
    redirect: 'manual',
  })

test('beside a running service, and after it was killed', LONG, async () => {
  const store = await emptyStore()
  const service = startBedwright(store)
  const address = await service.address()
  const setUp = await setUpLine(service)

  const early = await run(store, 'owner', 'reset')
  expect(early).toMatchObject({ code: 0, complained: [] })
  expect(early.said.join('\n')).toContain('no owner yet')
  expect(new URL(linkIn(early.said)).pathname).toBe(new URL(setUp).pathname)
  expect((await setUpAt(address, new URL(setUp).pathname)).status).toBe(303)

  const backup = await run(store, 'backup')
  expect(backup).toMatchObject({ code: 0, complained: [] })
  const [name] = readdirSync(join(store.DATA_DIR!, 'backups'))
  const file = join(store.DATA_DIR!, 'backups', name!)
  expect(name).toMatch(/^bedwright-\d{4}-\d\d-\d\dT\d{6}Z\.jsonl\.gz$/)
  expect(backup.said[0]).toMatch(/^Backed up 0 quote requests to .* \(\d+ kB\)\.$/)
  expect(backup.said[0]).toContain(file)
  expect(backup.said[1]).toContain(join(store.DATA_DIR!, 'secret-key'))
  expect(statSync(file).mode & 0o777).toBe(0o600)
  expect((await checkBackup(file)).end.rows).toMatchObject({ account: 1, business: 1, rate_table: 1 })

  const refused = await run(store, 'restore', file)
  const where =
    inject('storeKind') === 'embedded' ? `using the folder ${store.DATA_DIR}` : 'connected to that database'
  expect(refused).toEqual({
    code: 1,
    said: [],
    complained: [`Another Bedwright is ${where}. Stop it first.`],
  })

  const reset = await run(store, 'owner', 'reset')
  expect(reset.said[0]).toBe(`For ${SET_UP_FIELDS['owner.email']}, good once, for half an hour:`)
  const path = new URL(linkIn(reset.said)).pathname
  expect((await fetch(address + path)).status).toBe(200)
  expect((await post(address + path, { fresh: FRESH })).status).toBe(303)
  const email = String(SET_UP_FIELDS['owner.email'])
  expect((await post(`${address}/sign-in`, { email, password: FRESH })).status).toBe(303)

  service.child.kill('SIGKILL')
  await service.ended()
  const after = join(await ownFolder(), 'after.jsonl.gz')
  expect(await run(store, 'backup', after)).toMatchObject({ code: 0, complained: [] })

  const other: Environment = { ...(await emptyStore()), SECRET_KEY: 'another key, of 32 characters or more' }
  const restored = await run(other, 'restore', after)
  expect(restored).toMatchObject({ code: 0, complained: [] })
  expect(restored.said[0]).toMatch(/^Restored 0 quote requests, as of \S+Z, from Bedwright \S+\.$/)
  expect(restored.said.at(-1)).toContain('put the key from that time into SECRET_KEY')
})
