import { runCommand } from './run-command.ts'

process.exitCode = await runCommand({
  typed: process.argv.slice(2),
  out: process.stdout,
  aside: process.stderr,
  now: Temporal.Now.instant,
  interruption: () => {
    const asked = new AbortController()
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => asked.abort())
    return asked.signal
  },
})
