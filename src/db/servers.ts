/**
 * The servers that one database may be on, of which one takes writes and the others follow it. Which one that is may change:
 * then whoever follows is promoted, and the old one must never take writes again.
 */
export class Servers {
  /** How many there are. */
  readonly count: number
  readonly #urls: string[]
  #at = 0

  /** All by the same address but for the host and the port, as 'db2.example.com:5432'; without a port it is that of the address. */
  constructor(url: string, otherHosts: string[] = []) {
    this.#urls = [url, ...otherHosts.map(host => withHost(url, host))]
    this.count = this.#urls.length
  }

  /**
   * Asks one after another for a connection, first the one that gave the last.
   * @throws what the last one said, when none gives any
   */
  async first<Connection>(connect: (url: string) => Promise<Connection>): Promise<Connection> {
    const from = this.#at
    for (let tried = 0; ; tried++) {
      const at = (from + tried) % this.count
      try {
        const connection = await connect(this.#urls[at]!)
        this.#at = at
        return connection
      } catch (error) {
        if (tried + 1 === this.count) throw error
      }
    }
  }
}

function withHost(url: string, host: string): string {
  const other = new URL(url)
  const { hostname, port } = new URL(`postgres://${host}/`)
  other.hostname = hostname
  if (port !== '') other.port = port
  return other.href
}
