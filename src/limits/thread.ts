import { setPriority } from 'node:os'
import { parentPort } from 'node:worker_threads'
import type { Asked, Said } from './threads.ts'

/** A task of a thread's program: of what it is asked, and of what all that is asked has in common. */
export type Task = (input: never, shared: never) => unknown

/** What a program of a thread does: it answers what it is asked, one after the other. */
export function answerJobs(tasks: Record<string, Task>): void {
  giveWay()
  let shared: unknown
  const say = (said: Said) => parentPort?.postMessage(said)
  parentPort?.on('message', (asked: Asked) => {
    if ('shared' in asked) shared = asked.shared
    try {
      say({ result: tasks[asked.task]!(asked.input as never, shared as never) })
    } catch (fault) {
      say({ fault })
    }
  })
  say({ ready: true })
}

// Where processors are few, whoever isn't waiting for a thread comes first. Linux alone knows a priority of a thread.
function giveWay(): void {
  if (process.platform === 'linux') setPriority(10)
}
