import { randomUUID } from 'node:crypto'
import { cpSync, readdirSync } from 'node:fs'
import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import sharp from 'sharp'
import { expect, onTestFinished, test } from 'vitest'
import { openStore } from '../../src/db/open.ts'
import { formsOf } from '../access/forms.ts'
import { folderWithStore } from '../helpers/made-store.ts'
import { ALICE } from '../helpers/people.ts'
import { type Environment, startBedwright } from '../helpers/process.ts'
import { BEDS, CAROL } from '../helpers/request-form.ts'
import { formBody, setUpAt, setUpLine } from '../helpers/set-up.ts'
import { kindsOfDisk, type SmallDisk, smallDisk } from '../helpers/small-disk.ts'

const FULL = 'We’re out of room to save anything right now.'
/** What a page has left takes a few rows more. */
const MOST_TRIES = 60

/** A photo that nothing makes smaller. */
const photo = () =>
  sharp({
    create: {
      width: 800,
      height: 600,
      channels: 3,
      background: '#363',
      noise: { type: 'gaussian', mean: 128, sigma: 60 },
    },
  })
    .jpeg()
    .toBuffer()

test.each(kindsOfDisk())(
  'a disk that fills up, %s: what was typed comes back, pages are read, no backup is half made, a start says why not, and with room all is there',
  {
    timeout: 180_000,
  },
  async kind => {
    const disk = smallDisk(kind, 300)
    const environment = await placed(disk)
    const bedwright = startBedwright(environment)
    const site = await siteAt(await bedwright.address(), await setUpLine(bedwright))
    const sent = await site.send('Before')
    expect(sent.status).toBe(303)
    expect(await command(environment, 'backup')).toMatchObject({ code: 0 })
    const kept = backupsOn(disk)
    expect(kept).toHaveLength(1)

    disk.fill()
    const acknowledged = ['Before']
    let refused: Response | undefined
    for (let n = 1; n <= MOST_TRIES && !refused; n++) {
      const answer = await site.send(`Full ${n}`, await photo())
      if (answer.status === 303) acknowledged.push(`Full ${n}`)
      else refused = answer
    }
    expect(refused?.status).toBe(503)
    const page = await refused!.text()
    expect(page).toContain(FULL)
    expect(page).toContain('photos have to be chosen again')
    const typed = typedIn(page)
    const one = await site.sendPhoto(await photo())
    expect([one.status, await one.json()]).toEqual([
      503,
      expect.objectContaining({ errors: [{ field: '', message: expect.stringContaining(FULL) }] }),
    ])
    for (const path of ['/', '/queue', '/days', '/customers'])
      expect(await site.read(path)).not.toContain(FULL)
    const doing = await site.read('/how-is-it-doing')
    expect(doing).toContain('Make room on that disk')
    for (const name of acknowledged) expect(await site.read('/queue')).toContain(name)
    const backup = await command(environment, 'backup')
    expect(backup.code).toBe(1)
    expect(backup.complained).toEqual(['The command failed: the disk is full. Make room on it.'])
    expect(backupsOn(disk)).toEqual(kept)

    bedwright.child.kill('SIGKILL')
    await bedwright.ended()
    const start = startBedwright(environment)
    expect(await start.ended()).toBe(1)
    expect(start.complained).toEqual([
      `The disk with the folder ${environment.DATA_DIR} is full. Make room on it, 100 MB at least, and start again: nothing is lost.`,
    ])

    disk.makeRoom()
    const again = startBedwright(environment)
    const address = await again.address()
    expect((await post(`${address}/requests`, typed)).status).toBe(303)
    acknowledged.push(typed.name!)
    const made = await command(environment, 'backup')
    expect([made.code, backupsOn(disk).length]).toEqual([0, 2])
    again.child.kill('SIGTERM')
    await again.ended()
    await expectAll(environment, acknowledged)
  },
)

/** A store where nothing has been migrated yet, on the disk. */
async function placed(disk: SmallDisk): Promise<Environment> {
  const made = await folderWithStore()
  onTestFinished(() => rm(made, { recursive: true }))
  const DATA_DIR = join(disk.folder, 'data')
  cpSync(made, DATA_DIR, { recursive: true })
  return { DATA_DIR, TRUSTED_PROXY: '127.0.0.1', ...disk.environment }
}

/** The site with its business set up, and the owner signed in. */
async function siteAt(address: string, setUp: string) {
  expect((await setUpAt(address, new URL(setUp).pathname)).status).toBe(303)
  const { email, password } = ALICE
  const signedIn = await post(`${address}/sign-in`, { email, password })
  const cookie = signedIn.headers
    .getSetCookie()
    .map(set => set.split(';')[0])
    .join('; ')
  let visitors = 0
  const forwarded = () => ({ 'x-forwarded-for': `192.0.2.${++visitors}` })
  return {
    read: async (path: string) => {
      const answer = await fetch(address + path, { headers: { cookie } })
      expect([path, answer.status]).toEqual([path, 200])
      return answer.text()
    },
    send: (name: string, picture?: Buffer) => {
      const body = new FormData()
      const fields = { ...BEDS, ...CAROL, name, submissionKey: randomUUID() }
      for (const [field, value] of formBody(fields)) body.append(field, value)
      if (picture) body.append('photos.0.file', new File([new Uint8Array(picture)], 'bed.jpg'))
      const headers = { origin: address, ...forwarded() }
      return fetch(`${address}/requests`, { method: 'POST', headers, body, redirect: 'manual' })
    },
    sendPhoto: (picture: Buffer) =>
      fetch(`${address}/request/photos`, {
        method: 'POST',
        headers: { origin: address, 'content-type': 'application/octet-stream', ...forwarded() },
        body: new Uint8Array(picture),
      }),
  }
}

function post(address: string, fields: Record<string, string>): Promise<Response> {
  const headers = { origin: new URL(address).origin }
  return fetch(address, { method: 'POST', headers, body: formBody(fields), redirect: 'manual' })
}

/** The fields of the form that the page gives back. */
function typedIn(page: string): Record<string, string> {
  const form = formsOf(page, '/requests').find(({ method }) => method === 'POST')
  return Object.fromEntries(form!.controls.map(({ name, value }) => [name, String(value)]))
}

async function command(environment: Environment, ...words: string[]) {
  const program = startBedwright(environment, 'src/command/main.ts', words)
  return { code: await program.ended(), complained: program.complained }
}

/** All that lies in the folder of backups, half made ones too. */
function backupsOn({ folder }: SmallDisk): string[] {
  return readdirSync(join(folder, 'data/backups')).sort()
}

/** Looks that those requests are there whole, and no other; and that each photo is whole, a request's or held for one. */
async function expectAll({ DATA_DIR }: Environment, names: string[]): Promise<void> {
  const store = await openStore({ dataDir: DATA_DIR! })
  const { rows } = await store.executeSql(`
    select name, count(history.id) > 0 as told, (select count(*) from outbox where quote_request_id = quote_request.id) > 0 as mailed
    from quote_request join customer on customer.id = customer_id left join history on history.quote_request_id = quote_request.id
    group by name, quote_request.id`)
  const { rows: held } = await store.executeSql(`select sending->>'name' as name from maybe_junk`)
  const { rows: half } = await store.executeSql(`
    select id from request_photo where octet_length(picture) < 1000 or octet_length(small) < 1000
      or (quote_request_id is null and maybe_junk_id is null and token_hash is null)`)
  await store.close()
  const found = [...rows, ...held] as { name: string; told?: boolean; mailed?: boolean }[]
  expect(found.map(({ name }) => name).sort()).toEqual(names.toSorted())
  expect(found.filter(({ told, mailed }) => told === false || mailed === false)).toEqual([])
  expect(half).toEqual([])
}
