import { Writable } from 'node:stream'
import { runCommand } from '../../../src/command/run-command.ts'

/** Something that keeps what is written to it. */
export function keeping() {
  const parts: Buffer[] = []
  const stream = new Writable({
    write: (part, _encoding, done) => {
      parts.push(Buffer.from(part))
      done()
    },
  }) as Writable & { isTTY?: boolean }
  return { stream, bytes: () => Buffer.concat(parts), text: () => Buffer.concat(parts).toString() }
}

/** Runs a command line in this process; gives its exit code and what it said. */
export async function typed(words: string, env: Record<string, string> = {}, isTTY = false) {
  const [out, aside] = [keeping(), keeping()]
  out.stream.isTTY = isTTY
  const code = await runCommand({
    typed: words.split(' ').filter(Boolean),
    env,
    out: out.stream,
    aside: aside.stream,
    now: () => Temporal.Instant.from('2026-03-02T16:00:00.5Z'),
    interruption: () => new AbortController().signal,
  })
  return { code, said: out.text(), aside: aside.text(), bytes: out.bytes() }
}
