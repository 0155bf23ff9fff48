import fs from 'node:fs'
import { rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { expect, onTestFinished, test, vi } from 'vitest'
import { openStore } from '../../src/db/open.ts'
import { type FileSystem, leaveRoomForLog } from '../../src/db/room-for-log.ts'
import { folderWithStore } from '../helpers/made-store.ts'

/** Has the disk say how many bytes are free, until it is told otherwise. */
function saysFree(bytes: number) {
  const said = vi.spyOn(fs, 'statfsSync')
  onTestFinished(() => said.mockRestore())
  said.mockReturnValue({ ...fs.statfsSync(tmpdir()), bavail: bytes, bsize: 1, blocks: 1 } as never)
  return said
}

test('with 64 MB left rows without room are refused, what is there is read, and the log goes on', async () => {
  const dataDir = await folderWithStore()
  onTestFinished(() => rm(dataDir, { recursive: true }))
  const store = await openStore({ dataDir })
  onTestFinished(store.close)
  await store.executeSql('create table crate (id integer, what text)')
  await store.executeSql('create table tally as select 0 as n')
  const fill = (id: number) =>
    store.executeSql('insert into crate select $1, n::text from generate_series(1, 2000) n', [id])
  await fill(1)
  const disk = saysFree(64 * 1024 * 1024 - 1)
  await expect(fill(2)).rejects.toMatchObject({ code: '53100' })
  for (let n = 0; n < 3; n++) {
    await store.executeSql('update tally set n = n + $1', [1])
    await store.executeSql('select pg_switch_wal()')
  }
  const { rows } = await store.executeSql('select n, (select count(*) from crate) as crates from tally')
  expect(rows).toEqual([{ n: 3, crates: 2000 }])
  disk.mockRestore()
  await fill(2)
})

test('a disk that tells nothing of itself isn’t taken for a full one', async () => {
  const dataDir = await folderWithStore()
  onTestFinished(() => rm(dataDir, { recursive: true }))
  saysFree(0).mockReturnValue({ bavail: 0, bsize: 1, blocks: 0 } as never)
  const store = await openStore({ dataDir })
  await store.executeSql('create table crate as select 7 as id')
  await store.close()
})

test('when even the log has no room the process is ended; another file’s want of it is a refusal', () => {
  class ErrnoError extends Error {
    readonly errno: number
    constructor(errno: number) {
      super()
      this.errno = errno
    }
  }
  const write = () => {
    throw new ErrnoError(51)
  }
  const module = { FS: { ErrnoError }, NODEFS: { stream_ops: { write } } } as unknown as FileSystem
  leaveRoomForLog(module, tmpdir(), () => {
    throw new Error('ended')
  })
  const written = (path: string) => () =>
    module.NODEFS.stream_ops.write({ path: `/pglite/data/${path}` }, Buffer.alloc(1), 0, 1, 0)
  expect(written('pg_wal/000000010000000000000002')).toThrow('ended')
  expect(written('base/5/1249')).toThrow(ErrnoError)
})
