import { Worker } from 'node:worker_threads'

/** All threads are at work, and as much as may wait does. */
export class ThreadsBusy extends Error {}

/** The thread ended over it, or all of them were closed. */
export class ThreadLost extends Error {}

/** What a thread is asked: `shared` is there where it changed since what this thread was asked last. */
export interface Asked {
  task: string
  input: unknown
  shared?: unknown
}

/** What a thread says: that it is ready, or what came of what it was asked. */
export type Said = { ready: true } | { result: unknown } | { fault: unknown }

interface Job extends Asked {
  resolve(result: unknown): void
  reject(error: unknown): void
}

interface Thread {
  worker: Worker
  ready: Promise<void>
  job: Job | undefined
  /** What it was given last to be shared by all that it is asked. */
  shared: unknown
}

/**
 * A few threads that run one program, each one job at a time, with a queue of a limited length. They are started when
 * they are needed first, and one that ends is replaced; none of them keeps the process alive.
 */
export class Threads {
  readonly #program: URL
  readonly #most: number
  readonly #mostWaiting: number
  readonly #threads = new Set<Thread>()
  #waiting: Job[] = []
  #closed = false

  constructor(program: URL, { threads, waiting }: { threads: number; waiting: number }) {
    this.#program = program
    this.#most = threads
    this.#mostWaiting = waiting
  }

  /** Starts all of them, so that nobody has to wait for that. */
  async warm(): Promise<void> {
    while (this.#threads.size < this.#most) this.#start()
    await Promise.all([...this.#threads].map(({ ready }) => ready))
  }

  /**
   * Has a task of the program run. What `shared` holds is plain data that is sent to each thread once for as long as
   * it stays the same object.
   * @throws {ThreadsBusy} when there are too many jobs already
   * @throws {ThreadLost} when its thread ends over it
   */
  run<Result>(task: string, input: unknown, shared: object): Promise<Result> {
    const { promise, resolve, reject } = Promise.withResolvers<unknown>()
    const job: Job = { task, input, shared, resolve, reject }
    const free = [...this.#threads].find(thread => !thread.job)
    if (this.#closed) reject(new ThreadLost('closed'))
    else if (free) give(free, job)
    else if (this.#threads.size < this.#most) give(this.#start(), job)
    else if (this.#waiting.length < this.#mostWaiting) this.#waiting.push(job)
    else reject(new ThreadsBusy())
    return promise as Promise<Result>
  }

  /** Ends them all; what they are at, and what waits, is lost. */
  async close(): Promise<void> {
    this.#closed = true
    for (const job of this.#waiting) job.reject(new ThreadLost('closed'))
    this.#waiting = []
    await Promise.all([...this.#threads].map(({ worker }) => worker.terminate()))
  }

  #start(): Thread {
    const worker = new Worker(this.#program)
    worker.unref()
    const { promise: ready, resolve } = Promise.withResolvers<void>()
    const thread: Thread = { worker, ready, job: undefined, shared: undefined }
    this.#threads.add(thread)
    let wasReady = false
    let fault: unknown
    worker.on('message', (said: Said) => {
      if ('ready' in said) {
        wasReady = true
        return resolve()
      }
      const { job } = thread
      thread.job = undefined
      if ('fault' in said) job?.reject(said.fault)
      else job?.resolve(said.result)
      this.#next(thread)
    })
    worker.on('error', error => {
      fault = error
    })
    worker.on('exit', code => {
      resolve()
      this.#threads.delete(thread)
      thread.job?.reject(new ThreadLost(`a thread ended with ${code}`, { cause: fault }))
      // One that can't even start would be started for ever.
      if (!this.#closed && (wasReady || this.#waiting.length > 0)) this.#next(this.#start())
    })
    return thread
  }

  #next(thread: Thread): void {
    for (let job = this.#waiting.shift(); job; job = this.#waiting.shift()) {
      if (give(thread, job)) return
    }
  }
}

/** Whether it could be sent: what isn't plain data can't. */
function give(thread: Thread, job: Job): boolean {
  const { task, input, shared } = job
  try {
    thread.worker.postMessage({ task, input, ...(shared !== thread.shared && { shared }) } satisfies Asked)
  } catch (error) {
    job.reject(error)
    return false
  }
  thread.job = job
  thread.shared = shared
  return true
}
