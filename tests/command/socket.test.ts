import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdirSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { text } from 'node:stream/consumers'
import { setImmediate } from 'node:timers/promises'
import { afterAll, beforeAll, beforeEach, expect, inject, onTestFinished, test } from 'vitest'
import { allCommands } from '../../src/command/all-commands.ts'
import { askStore } from '../../src/command/ask-store.ts'
import { type Command, CommandFault } from '../../src/command/command.ts'
import { listenForCommands } from '../../src/command/listen.ts'
import { socketPath } from '../../src/command/socket.ts'
import { readConfig } from '../../src/config.ts'
import { type TestApp, testApp } from '../helpers/app.ts'
import { until } from '../helpers/until.ts'

let app: TestApp
let dataDir: string
beforeAll(async () => {
  app = await testApp()
})
afterAll(() => app.close())
beforeEach(() => {
  const folder = mkdtempSync(join(tmpdir(), 'bedwright-socket-'))
  dataDir = folder
  return () => rmSync(folder, { recursive: true })
})

const warned: string[] = []
async function listening() {
  const deps = { ...app.deps, config: readConfig({ DATA_DIR: dataDir }) }
  const commands = await listenForCommands(deps, app.store, line => warned.push(line))
  onTestFinished(commands.close)
  return commands
}

/** Asks as the command line of another process would. */
const ask = (command: Command, input = {}) =>
  askStore(command, readConfig({ DATA_DIR: dataDir }), app.deps.now, input)
const answer = (command: Command, input = {}) => text(ask(command, input))

/** A command that there is for one test. */
function command(atStore: NonNullable<Command['atStore']>): Command {
  const made = { name: 'tell time', summary: 'tell the time', help: [], atStore }
  allCommands.push(made)
  onTestFinished(() => void allCommands.splice(allCommands.indexOf(made), 1))
  return made
}

if (inject('storeKind') === 'postgres') {
  test('with PostgreSQL nobody listens, as commands connect by themselves', async () => {
    await listening()
    expect(readdirSync(dataDir)).toEqual([])
  })
} else {
  test('with the embedded store its owner is answered, until it is closed', async () => {
    app.deps.arrivals.note('passed on', '10.0.0.1')
    const telling = command(async function* ({ now, secretKey, arrivals }, { word }) {
      yield `${word} at ${now()} `
      yield Buffer.from(`with ${secretKey === app.deps.secretKey ? 'the key' : 'no key'}`)
      yield `, ${arrivals?.arrived().passedOn} passed on`
    })
    const commands = await listening()
    const socket = socketPath(dataDir)!
    expect(await answer(telling, { word: 'Hello' })).toBe(
      `Hello at ${app.deps.now()} with the key, 1 passed on`,
    )
    expect(statSync(socket).mode & 0o777).toBe(0o600)
    expect(statSync(join(dataDir, 'commands')).mode & 0o777).toBe(0o700)
    await commands.close()
    expect(statSync(socket, { throwIfNoEntry: false })).toBeUndefined()
  })

  test('what goes wrong there is told here, in its line', async () => {
    const failing = command(async function* () {
      yield 'a beginning'
      throw new CommandFault('The shed is locked: ask “Hugo”.')
    })
    await listening()
    const refusal = await answer(failing).catch(error => error)
    expect(refusal).toBeInstanceOf(CommandFault)
    expect(refusal.message).toBe('The shed is locked: ask “Hugo”.')
  })

  test('closing breaks off what is being done, says so here, and waits until the store is left alone', async () => {
    let left = false
    const endless = command(async function* ({ store }) {
      try {
        while (true) {
          await store.executeSql('select 1')
          yield Buffer.alloc(100_000)
          await setImmediate()
        }
      } finally {
        left = true
      }
    })
    const commands = await listening()
    let begun = false
    const asking = (async () => {
      for await (const _piece of ask(endless)) begun = true
    })().catch(error => error)
    await until(() => begun, { what: 'the beginning of an answer' })
    await commands.close()
    expect(left).toBe(true)
    expect((await asking).message).toBe('The running Bedwright stopped before it was done.')
  })

  test('whoever goes away in the middle of an answer ends what is done for it', async () => {
    let left = false
    const endless = command(async function* () {
      try {
        while (true) yield Buffer.alloc(100_000)
      } finally {
        left = true
      }
    })
    await listening()
    for await (const _piece of ask(endless)) break
    await until(() => left, { what: 'its end' })
  })

  test('one that the running service does not know is told as such', async () => {
    await listening()
    const unknown = { name: 'tell fortunes', summary: '', help: [], async *atStore() {} }
    await expect(answer(unknown)).rejects.toThrow(
      'is a different version that doesn’t have this command. Restart it.',
    )
  })

  test('what a killed one left behind is replaced', async () => {
    mkdirSync(join(dataDir, 'commands'))
    const killed = spawn(process.execPath, [
      '-e',
      `require('net').createServer().listen(${JSON.stringify(socketPath(dataDir))}, () => process.kill(process.pid, 'SIGKILL'))`,
    ])
    await once(killed, 'close')
    expect(statSync(socketPath(dataDir)!).isSocket()).toBe(true)
    const telling = command(async function* () {
      yield 'here'
    })
    await expect(answer(telling)).rejects.toThrow('There’s no store in the folder')
    await listening()
    expect(await answer(telling)).toBe('here')
  })

  test('a folder with too long a name for a socket is told, and keeps nothing from starting', async () => {
    dataDir = join(dataDir, 'x'.repeat(120))
    warned.length = 0
    await listening()
    expect(warned).toHaveLength(1)
    expect(warned[0]).toContain('The name of DATA_DIR is too long')
  })
}
