/**
 * Makes a store of an earlier version, by that version's own programs, and keeps its backup here. Run in a checkout of
 * that version, after `npm ci`: `node PATH/TO/tests/earlier/make.ts NAME`.
 */
import { execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'

const PORT = '8192'
const HOME = `http://localhost:${PORT}`
const name = process.argv[2]!
const file = join(import.meta.dirname, 'stores', `${name}.jsonl.gz`)
const dataDir = mkdtempSync(join(tmpdir(), 'earlier-'))
const env = { PATH: process.env.PATH, DATA_DIR: dataDir, DEMO_DIR: dataDir, PORT, LOG_LEVEL: 'silent' }

const demo = spawn(process.execPath, ['src/demo/main.ts'], { env, stdio: ['ignore', 'pipe', 'inherit'] })
let said = ''
demo.stdout.on('data', piece => {
  said += piece
})
while (!said.includes('To stop it')) await setTimeout(200)
const [, email, password] = /the owner +(\S+) +with +(.+)/.exec(said)!

const signedIn = await fetch(`${HOME}/sign-in`, {
  method: 'POST',
  headers: { origin: HOME, 'sec-fetch-site': 'same-origin' },
  body: new URLSearchParams({ email: email!, password: password!.trim() }),
  redirect: 'manual',
})
const cookie = signedIn.headers
  .getSetCookie()
  .map(one => one.split(';')[0])
  .join('; ')
const read = async (path: string) => (await fetch(`${HOME}${path}`, { headers: { cookie } })).text()

const seen = new Set(['/queue', '/days'])
const links = new Map<string, number>()
for (const path of seen) {
  const text = await read(path)
  for (const [, found] of text.matchAll(/href="(\/queue\/[\w-]+|\/queue\?[^"]*)"/g))
    if (seen.size < 200) seen.add(found!.replaceAll('&amp;', '&'))
  for (const [found] of text.matchAll(/\/[rbp]\/[\w-]{30,}(?:\/bills\/[\w-]+)?/g)) links.set(found, 0)
}
for (const path of links.keys()) links.set(path, (await fetch(`${HOME}${path}`)).status)

rmSync(file, { force: true })
execFileSync(process.execPath, ['src/command/main.ts', 'backup', file], { env, stdio: 'inherit' })
demo.kill('SIGTERM')
await once(demo, 'exit')
const secretKey = readFileSync(join(dataDir, 'secret-key'), 'utf8').trim()
const opening = [...links].filter(([, status]) => status === 200).map(([path]) => path)
const told = { secretKey, email, password: password!.trim(), links: opening }
writeFileSync(file.replace('.jsonl.gz', '.json'), `${JSON.stringify(told, null, 2)}\n`)
rmSync(dataDir, { recursive: true })
console.log(`${seen.size} pages of staff, ${links.size} links, of which ${opening.length} open`)
