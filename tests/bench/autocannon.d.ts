/** What of autocannon is used here: it brings no types. */
declare module 'autocannon' {
  export interface Shot {
    method?: string
    path?: string
    headers?: Record<string, string>
    body?: string
    /** Makes each request of a connection from the one before it. */
    setupRequest?(shot: Shot): Shot
  }

  export interface Outcome {
    requests: { average: number; total: number }
    non2xx: number
    errors: number
    statusCodeStats: Record<string, { count: number }>
  }

  export default function autocannon(options: {
    url: string
    connections: number
    duration: number
    requests: Shot[]
  }): Promise<Outcome>
}
