import { randomBytes } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import { expect, inject } from 'vitest'
import { openInMemory } from '../../src/db/embedded.ts'
import { embeddedStore, openStore, type Store } from '../../src/db/open.ts'
import { emptyTables, shapeOf, versionOf } from './emptying.ts'
import { PATIENT } from './patient.ts'

/** The store that the tests of this worker take turns with. */
interface Kept {
  store: Store
  /** What its tables looked like when it was new. */
  shape: string
  /** Says the same more quickly: as long as this is the same, so is that. */
  version: string
  /** The test file that has it at the moment. */
  heldBy: string | undefined
}

const DEADLOCK = '40P01'

let kept: Kept | undefined

/**
 * Gives a migrated, empty store of the kind this run of the test is for. It is the worker's own store, emptied, unless
 * the same file holds that already: then it is a new one. Close it when done.
 */
export async function testStore(): Promise<Store> {
  const file = expect.getState().testPath ?? ''
  if (kept?.heldBy === file) return newStore()
  const mine = await emptyKept()
  mine.heldBy = file
  let open = true
  return {
    ...mine.store,
    // Closed twice it must not take the store from who has it by then.
    close: async () => {
      if (open) mine.heldBy = undefined
      open = false
    },
  }
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

/** The address of a test's database on the tests' server. */
export async function urlOf(store: Store): Promise<string> {
  const { rows } = await store.executeSql('select current_database() as name')
  const url = new URL(inject('serverUrl')!)
  url.pathname = (rows as { name: string }[])[0]!.name
  return url.href
}

// One that an earlier file never gave back may still be written to, and one whose tables were changed is no longer
// what a migration makes: the next file must not get either.
async function emptyKept(): Promise<Kept> {
  if (kept && !kept.heldBy && (await isEmptied(kept.store))) {
    const version = await versionOf(kept.store)
    if (version === kept.version) return kept
    // Truncated, or changed and changed back.
    if ((await shapeOf(kept.store)) === kept.shape) {
      kept.version = version
      return kept
    }
  }
  await kept?.store.close()
  const store = await newStore()
  kept = { store, shape: await shapeOf(store), version: await versionOf(store), heldBy: undefined }
  return kept
}

// Whoever is in the way of emptying it has not given it back.
async function isEmptied(store: Store): Promise<boolean> {
  try {
    await emptyTables(store)
    return true
  } catch (error) {
    if ((error as { code?: string }).code === DEADLOCK) return false
    throw error
  }
}

/** Gives a store of this run's kind that has had no migration, for the test that migrates it. Close it when done. */
export async function unmigratedStore(): Promise<Store> {
  const image = inject('emptyImage')
  return image ? fromImage(image) : openStore({ dataDir: '', databaseUrl: await testDatabase() })
}

async function fromImage(file: string): Promise<Store> {
  return embeddedStore(await openInMemory(new Blob([await readFile(file)])))
}

async function newStore(): Promise<Store> {
  const image = inject('storeImage')
  if (image) return fromImage(image)
  return openStore({ dataDir: '', databaseUrl: await testDatabase(inject('template')), deadlines: PATIENT })
}
