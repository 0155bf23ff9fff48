import { type messages, type PGlite, protocol } from '@electric-sql/pglite'
import { bind, parsers } from './parsers.ts'

const { serialize } = protocol
const KEPT = 256
const CAN_BE_PREPARED = /^\s*(?:select|insert|update|delete|merge|with)\b/i
const CHANGES_TABLES = /\b(?:create|alter|drop)\b/i
const TAKES_BACK = /^\s*rollback\b/i

/** What a statement gave: its rows, what it was, and how many rows it changed where it changes any. */
export interface Answer {
  rows: unknown[]
  command: string
  changed?: bigint
}

interface Prepared {
  name: string
  fields: messages.Field[]
}

/**
 * Statements on a PGlite, each sent whole in one message, those used last kept prepared: PGlite's own `query` crosses
 * six times and plans anew each time. For one user at a time: transactions are its caller's, who must hold the PGlite.
 */
export class PreparedStatements {
  readonly #pglite: PGlite
  readonly #kept = new Map<string, Prepared>()
  #names = 0
  #tablesChanged = false
  #toClose: string[] = []

  constructor(pglite: PGlite) {
    this.#pglite = pglite
  }

  /**
   * Runs one statement with values for $1, $2 and so on.
   * @throws DatabaseError with the server's `code` and `constraint`
   */
  async run(text: string, values: readonly unknown[] = []): Promise<Answer> {
    const known = this.#kept.get(text)
    if (known) return this.#runKnown(text, known, values)
    if (CAN_BE_PREPARED.test(text)) return this.#prepareAndRun(text, values)
    this.forgetAfter(text)
    return this.#send('', text, values)
  }

  /** Drops all that is prepared where a text may change tables, or take such a change back, as that makes it wrong. */
  forgetAfter(text: string): void {
    const changes = CHANGES_TABLES.test(text)
    if (!changes && !(this.#tablesChanged && TAKES_BACK.test(text))) return
    this.#tablesChanged = changes
    for (const { name } of this.#kept.values()) this.#toClose.push(name)
    this.#kept.clear()
  }

  async #runKnown(text: string, known: Prepared, values: readonly unknown[]): Promise<Answer> {
    this.#kept.delete(text)
    this.#kept.set(text, known)
    const answers = await this.#exchange(bound(known.name, values))
    return readAnswer(answers, known.fields)
  }

  async #prepareAndRun(text: string, values: readonly unknown[]): Promise<Answer> {
    const [oldest] = this.#kept.size < KEPT ? [] : this.#kept.keys()
    if (oldest !== undefined) {
      this.#toClose.push(this.#kept.get(oldest)!.name)
      this.#kept.delete(oldest)
    }
    const name = `s${++this.#names}`
    return this.#send(name, text, values, fields => this.#kept.set(text, { name, fields }))
  }

  async #send(
    name: string,
    text: string,
    values: readonly unknown[],
    onParsed: (fields: messages.Field[]) => void = () => {},
  ): Promise<Answer> {
    const parsed = [serialize.parse({ name, text }), serialize.describe({ type: 'S', name })]
    const answers = await this.#exchange([...parsed, ...bound(name, values)])
    const described = answers.find(({ name }) => name === 'rowDescription' || name === 'noData')
    const fields =
      described && 'fields' in described ? (described as messages.RowDescriptionMessage).fields : []
    if (described) onParsed(fields)
    return readAnswer(answers, fields)
  }

  async #exchange(sent: Uint8Array[]): Promise<messages.BackendMessage[]> {
    const closed = this.#toClose.map(name => serialize.close({ type: 'S', name }))
    this.#toClose = []
    const message = Buffer.concat([...closed, ...sent, serialize.sync()])
    const options = { syncToFs: false, throwOnError: false }
    return this.#pglite.runExclusive(() => this.#pglite.execProtocolStream(message, options))
  }
}

function bound(name: string, values: readonly unknown[]): Uint8Array[] {
  return [serialize.bind({ statement: name, values: values.map(bind) }), serialize.execute({})]
}

function readAnswer(answers: messages.BackendMessage[], fields: messages.Field[]): Answer {
  const readers = fields.map(({ name, dataTypeID }) => [name, parsers[dataTypeID] ?? String] as const)
  const rows: unknown[] = []
  let command = ''
  let count = ''
  for (const answer of answers) {
    if (answer instanceof Error) throw answer
    if (answer.name === 'dataRow') rows.push(readRow((answer as messages.DataRowMessage).fields, readers))
    if (answer.name !== 'commandComplete') continue
    const words = (answer as messages.CommandCompleteMessage).text.split(' ')
    command = words[0] ?? ''
    count = words.at(-1) ?? ''
  }
  const changes = ['INSERT', 'UPDATE', 'DELETE', 'MERGE'].includes(command)
  return changes ? { rows, command, changed: BigInt(count) } : { rows, command }
}

function readRow(
  values: readonly (string | null)[],
  readers: readonly (readonly [string, (text: string) => unknown])[],
): Record<string, unknown> {
  const row: Record<string, unknown> = {}
  for (const [at, [name, read]] of readers.entries()) {
    const value = values[at] ?? null
    row[name] = value === null ? null : read(value)
  }
  return row
}
