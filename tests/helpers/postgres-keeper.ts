/**
 * A PostgreSQL server that ends with whoever started it: makes one in a folder of its own, prints its url and
 * folder as one line of JSON, and when its standard input closes, which it does however the starter ends, stops
 * the server and removes the folder. Every argument is a setting of the server's, as `fsync=off`; with `--pair` there is a
 * second one that follows it, and what the first acknowledges is on both.
 */
import { execFile } from 'node:child_process'
import {
  appendFileSync,
  chmodSync,
  chownSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { promisify } from 'node:util'
import { serverPrograms, serverUser } from './postgres-programs.ts'

const run = promisify(execFile)
const user = serverUser()
const home = mkdtempSync(join(tmpdir(), 'bedwright-postgres-'))
const data = join(home, 'data')
const secondData = join(home, 'second')
const isPair = process.argv.includes('--pair')

process.on('SIGINT', () => {})
process.on('SIGTERM', () => {})
process.stdin.on('end', () => stop().finally(() => process.exit()))
process.stdin.resume()

const programs = await reachablePrograms()
const url = await start()
const second = isPair ? { url: await startSecond(), data: secondData } : undefined
process.stdout.write(`${JSON.stringify({ url, data, programs, second })}\n`)

async function start(): Promise<string> {
  mkdirSync(data)
  if (user.uid !== undefined) chownSync(data, user.uid, user.uid)
  await run(
    programs.initdb,
    ['-D', data, '-U', 'postgres', '-A', 'trust', '-E', 'UTF8', '--locale=C', '--no-sync'],
    user,
  )
  const port = await freePort()
  const settings = [
    'listen_addresses=127.0.0.1',
    'unix_socket_directories=',
    `port=${port}`,
    ...process.argv.slice(2).filter(one => one !== '--pair'),
  ]
  writeFileSync(
    join(data, 'postgresql.auto.conf'),
    settings.map(setting => `${setting.replace('=', " = '")}'\n`).join(''),
  )
  await control('start', data)
  return `postgres://postgres@127.0.0.1:${port}/postgres`
}

// The package brings no pg_basebackup, so the second is a copy of the first while that is stopped.
async function startSecond(): Promise<string> {
  const first = new URL(url)
  const port = await freePort()
  await control('stop', data)
  await run('cp', ['-a', data, secondData])
  const follows = `host=127.0.0.1 port=${first.port} user=postgres application_name=second`
  const settings = join(secondData, 'postgresql.auto.conf')
  appendFileSync(settings, `port = '${port}'\nprimary_conninfo = '${follows}'\n`)
  writeFileSync(join(secondData, 'standby.signal'), '')
  appendFileSync(join(data, 'postgresql.auto.conf'), `synchronous_standby_names = 'second'\n`)
  await control('start', data)
  await control('start', secondData)
  return Object.assign(first, { port }).href
}

async function control(verb: 'start' | 'stop', folder: string, mode = 'fast'): Promise<void> {
  const how = verb === 'start' ? ['-l', join(folder, 'log')] : ['-m', mode]
  await run(programs.pg_ctl, [verb, '-w', '-D', folder, ...how], user)
}

async function stop(): Promise<void> {
  for (const folder of isPair ? [data, secondData] : [data])
    await control('stop', folder, 'immediate').catch(() => {})
  rmSync(home, { recursive: true, force: true })
}

// A checkout under root's own home can't be read by the server's user; then its programs are copied out of there.
async function reachablePrograms() {
  const installed = await serverPrograms()
  if (user.uid !== undefined) chmodSync(home, 0o755)
  for (const program of Object.values(installed)) chmodSync(program, 0o755)
  try {
    await run(installed.postgres, ['--version'], user)
    return installed
  } catch {
    cpSync(dirname(dirname(installed.postgres)), join(home, 'native'), {
      recursive: true,
      verbatimSymlinks: true,
    })
    const bin = join(home, 'native', 'bin')
    return { postgres: join(bin, 'postgres'), initdb: join(bin, 'initdb'), pg_ctl: join(bin, 'pg_ctl') }
  }
}

function freePort(): Promise<number> {
  const { promise, resolve, reject } = Promise.withResolvers<number>()
  const server = createServer().once('error', reject)
  server.listen(0, '127.0.0.1', () => {
    const address = server.address()
    server.close(() => resolve(typeof address === 'object' && address ? address.port : 0))
  })
  return promise
}
