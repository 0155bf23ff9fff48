import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { join } from 'node:path'
import { createInterface } from 'node:readline'

/** A program of this folder in a process of its own, which is told what to do in JSON and says something in JSON. */
export interface Program<Says> {
  says: Says
  signal(signal: NodeJS.Signals): void
  stop(): Promise<void>
}

/** Starts one, and waits for the first line that it says. */
export async function start<Says>(
  name: string,
  told: object,
  env: Record<string, string> = {},
): Promise<Program<Says>> {
  const child = spawned(name, told, env)
  const ended = once(child, 'exit')
  const line = await Promise.race([once(createInterface(child.stdout!), 'line'), ended])
  if (child.exitCode !== null) throw new Error(`${name} ended with ${child.exitCode}`)
  const stop = async () => {
    child.kill('SIGTERM')
    await ended
  }
  return { says: JSON.parse(line[0] as string), signal: signal => child.kill(signal), stop }
}

/** Runs one to its end, and gives what it said. */
export async function run<Says>(name: string, told: object): Promise<Says> {
  const child = spawned(name, told, {})
  const ended = once(child, 'close')
  let said = ''
  child.stdout!.on('data', part => {
    said += part
  })
  await ended
  if (child.exitCode !== 0) throw new Error(`${name} ended with ${child.exitCode}`)
  return JSON.parse(said)
}

function spawned(name: string, told: object, env: Record<string, string>): ChildProcess {
  return spawn(process.execPath, [join(import.meta.dirname, name), JSON.stringify(told)], {
    env: { PATH: process.env.PATH, ...env },
    stdio: ['ignore', 'pipe', 'inherit'],
  })
}
