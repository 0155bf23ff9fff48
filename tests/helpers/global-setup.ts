import { randomBytes } from 'node:crypto'
import { rmSync } from 'node:fs'
import { mkdir, mkdtemp, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { PGlite } from '@electric-sql/pglite'
import type { TestProject } from 'vitest/node'
import { openInMemory } from '../../src/db/embedded.ts'
import { migrate } from '../../src/db/migrate.ts'
import { embeddedStore, openStore, type Store } from '../../src/db/open.ts'
import { startServer } from './postgres-server.ts'

/** Migrates one store of the project's kind, of which every worker then gets a copy. */
export default async function setUp(project: TestProject): Promise<() => Promise<void>> {
  return project.config.provide.storeKind === 'postgres' ? setUpServer(project) : setUpImage(project)
}

async function setUpImage(project: TestProject): Promise<() => Promise<void>> {
  const folder = await mkdtemp(join(tmpdir(), 'bedwright-image-'))
  const pglite = await openInMemory()
  const store = embeddedStore(pglite)
  project.provide('emptyImage', await dump(pglite, join(folder, 'empty.tar')))
  await migrate(store)
  project.provide('storeImage', await dump(pglite, join(folder, 'store.tar')))
  await store.close()
  const claims = join(folder, 'markup-claims')
  await mkdir(claims)
  project.provide('markupClaims', claims)
  // At the end of the run, an interrupted one too.
  const remove = () => rmSync(folder, { recursive: true, force: true })
  process.once('exit', remove)
  return async () => remove()
}

async function dump(pglite: PGlite, file: string): Promise<string> {
  const image = await pglite.dumpDataDir('none')
  await writeFile(file, Buffer.from(await image.arrayBuffer()))
  return file
}

// Nothing of these tests has to outlive a crash, so the server needn't wait for the disk.
async function setUpServer(project: TestProject): Promise<() => Promise<void>> {
  const given = process.env.TEST_DATABASE_URL
  const server = given
    ? undefined
    : await startServer(['fsync=off', 'full_page_writes=off', 'max_connections=200'])
  const url = given ?? server!.url
  const name = `bedwright_${randomBytes(4).toString('hex')}`
  const admin = await openStore({ dataDir: '', databaseUrl: url })
  await admin.executeSql(`create database ${name}`)
  const template = await openStore({ dataDir: '', databaseUrl: databaseOf(url, name) })
  await migrate(template)
  await template.close()
  project.provide('serverUrl', url)
  project.provide('template', name)
  return async () => {
    if (given) await dropDatabases(admin, name)
    await admin.close()
    await server?.stop()
  }
}

async function dropDatabases(admin: Store, prefix: string): Promise<void> {
  const made = await admin.executeSql('select datname as name from pg_database where datname like $1', [
    `${prefix}%`,
  ])
  for (const { name } of made.rows as { name: string }[])
    await admin.executeSql(`drop database ${name} with (force)`)
}

function databaseOf(serverUrl: string, database: string): string {
  const url = new URL(serverUrl)
  url.pathname = database
  return url.href
}
