import { randomBytes } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import { inject } from 'vitest'
import { openInMemory } from '../../src/db/embedded.ts'
import { embeddedStore, openStore, type Store } from '../../src/db/open.ts'

/** Gives a migrated, empty store of its own, of the kind this run of the test is for. Close it when done. */
export async function testStore(): Promise<Store> {
  const image = inject('storeImage')
  if (image) return embeddedStore(await openInMemory(new Blob([await readFile(image)])))
  const url = await testDatabase(inject('template'))
  return openStore({ dataDir: '', databaseUrl: url })
}

/** Makes a database of its own on the tests' server, empty or a copy of another, and gives its address. */
export async function testDatabase(template = 'template1'): Promise<string> {
  const serverUrl = inject('serverUrl')
  if (!serverUrl) throw new Error('This test runs in a project without a store: see tests/vitest.config.ts.')
  const name = `${inject('template')}_${randomBytes(8).toString('hex')}`
  const admin = await openStore({ dataDir: '', databaseUrl: serverUrl })
  await admin.executeSql(`create database ${name} template ${template}`)
  await admin.close()
  const url = new URL(serverUrl)
  url.pathname = name
  return url.href
}
